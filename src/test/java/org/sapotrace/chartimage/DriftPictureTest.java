package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.ControlChart;

/** Pictures of moving averages and cumulative sums. */
class DriftPictureTest {

  private static SvgReading svg(ControlChart chart) throws Exception {
    return new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, 1000, 560));
  }

  private static List<String> words(SvgReading picture) {
    return picture.texts().stream().map(SvgReading.Text::words).toList();
  }

  @Test
  void showTheAverageWithItsLimitsAtTheLastResult() throws Exception {
    SvgReading picture = svg(SampleCharts.ewma());
    // The last of 34 limits: 31.2 ± 2.9 * 3.9 √(0.1/1.9 (1 - 0.9^68)); computed: 33.79 and 28.61.
    assertThat(words(picture))
        .contains(
            "moving average (EWMA) of soap, mg/kg",
            "upper control limit 33.79",
            "centre 31.20",
            "lower control limit 28.61",
            "A",
            "moving average (EWMA) beyond its limit")
        .anyMatch(text -> text.contains("EWMA of weight 0.1, width 2.9"));
    assertThat(picture.diamonds()).hasSize(4);
    assertThat(picture.circles()).hasSize(30);
  }

  @Test
  void showBothSumsEachWithItsOwnSignals() throws Exception {
    SvgReading picture = svg(SampleCharts.cusumBoth());
    assertThat(words(picture))
        .contains(
            "cumulative sums of soap, standard deviations",
            "decision value 5",
            "decision value −5",
            "U",
            "D")
        .anyMatch(text -> text.contains("CUSUM of reference 0.5, decision 5, head start 2.5"));
    long high =
        SampleCharts.cusumBoth().points().stream().filter(p -> p.plotted() > p.upper()).count();
    long low =
        SampleCharts.cusumBoth().points().stream().filter(p -> p.below() < p.lower()).count();
    assertThat(high).isPositive();
    assertThat(low).isPositive();
    assertThat(picture.diamonds()).hasSize((int) (high + low));
    assertThat(picture.circles()).hasSize((int) (2 * 35 - high - low));
  }

  @Test
  void sayInWordsWhatTheyShow() throws Exception {
    assertThat(svg(SampleCharts.cusum()).only("desc"))
        .startsWith(
            "CUSUM chart of soap in mg/kg, Harbour line, after the tower: 34 results, 2 Mar – 4 Apr"
                + " 2026; adopted limits, revision 1; CUSUM of reference 0.5, decision 5, head"
                + " start 2.5. Lines: decision value 5; decision value −5.")
        .endsWith("4 results carry a signal: cusum high at 4.");
  }

  @Test
  void markWhatTheySayOfResultsOnTheChartOfResultsToo() throws Exception {
    SvgReading picture = svg(SampleCharts.watched());
    assertThat(words(picture)).contains("LAU", "AU", "A", "D", "U");
    assertThat(picture.diamonds()).hasSize(4);
  }
}
