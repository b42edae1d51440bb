package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.List;
import java.util.stream.IntStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Kind;
import org.sapotrace.controlchart.Scale;

/** Pictures of means, ranges and standard deviations of subgroups. */
class SubgroupPictureTest {

  private static SvgReading svg(ControlChart chart) throws Exception {
    return new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, 1000, 560));
  }

  private static List<String> words(SvgReading picture) {
    return picture.texts().stream().map(SvgReading.Text::words).toList();
  }

  // 31.2 ± 3 * 3.9/√5, of ranges 2.3259289472810 * 3.9 and 4.9181747704806 * 3.9 (constants.csv).
  @Test
  void nameTheLimitsOfTheLastSubgroup() throws Exception {
    assertThat(words(svg(SampleCharts.mean())))
        .contains(
            "mean of soap, mg/kg",
            "specification 44",
            "upper control limit 36.4",
            "centre 31.2",
            "lower control limit 26.0")
        .anyMatch(text -> text.contains("32 subgroups of 5"))
        .noneMatch(text -> text.contains("limits step"));
    assertThat(words(svg(SampleCharts.range())))
        .contains(
            "range of soap within subgroups, mg/kg", "upper control limit 19.2", "centre 9.1");
    assertThat(svg(SampleCharts.deviations()).only("desc"))
        .startsWith(
            "Standard deviation chart of soap in mg/kg, Harbour line, after the tower: 32"
                + " subgroups of 10, 2 Mar");
  }

  @Test
  void sayThatLimitsStepWithTheNumberOfValues() throws Exception {
    SvgReading picture = svg(SampleCharts.unequal(Kind.RANGE));
    assertThat(words(picture))
        .anyMatch(text -> text.contains("30 subgroups of 1 to 8"))
        .contains(
            "limits step with the number of values, from 1 to 8",
            "gap: a single value has no range");
    // Three of thirty are single values.
    assertThat(picture.circles()).hasSize(27);
  }

  @ParameterizedTest
  @CsvSource({
    "MEAN, LOG, 'geometric mean of soap, mg/kg'",
    "MEAN, BOX_COX, 'power mean of soap, mg/kg'",
    "RANGE, LOG, range of ln soap within subgroups",
    "STANDARD_DEVIATION, BOX_COX, standard deviation of transformed soap within subgroups"
  })
  void nameWhatIsDrawnOnOtherScales(Kind kind, Scale scale, String axis) {
    assertThat(new Wording(new SampleChart().kind(kind).scale(scale).build()).axis())
        .isEqualTo(axis);
  }

  /** A single value has no range, and no limit of one reaches over it. */
  @Test
  void breakTheLimitsOverASingleValue() throws Exception {
    ControlChart chart = SampleCharts.unequal(Kind.RANGE);
    List<Rectangle2D> circles = svg(chart).circles();
    // The ninth subgroup is the first single value, so its neighbours are the eighth circle and the
    // next.
    double before = circles.get(7).getCenterX();
    double between = (before + circles.get(8).getCenterX()) / 2;
    BufferedImage image = image(chart);
    assertThat(inLimitColour(image, (int) between)).isEmpty();
    assertThat(inLimitColour(image, (int) before)).isNotEmpty();
  }

  /** Risers at every result would be a fence before the results. */
  @Test
  void drawNoRisersWhereResultsAreCrowded() throws Exception {
    assertThat(highestColumn(image(SampleCharts.unequal(Kind.MEAN)))).isGreaterThan(60);
    assertThat(highestColumn(image(SampleCharts.manyUnequal(400)))).isLessThan(60);
  }

  private static int highestColumn(BufferedImage image) {
    return IntStream.range(40, 830).map(x -> inLimitColour(image, x).size()).max().orElseThrow();
  }

  private static List<Integer> inLimitColour(BufferedImage image, int x) {
    int colour = Look.LIMIT.getRGB();
    return IntStream.range(0, image.getHeight())
        .filter(y -> distance(image.getRGB(x, y), colour) < 60)
        .boxed()
        .toList();
  }

  private static int distance(int one, int other) {
    return IntStream.of(0, 8, 16)
        .map(shift -> Math.abs((one >> shift & 0xFF) - (other >> shift & 0xFF)))
        .sum();
  }

  private static BufferedImage image(ControlChart chart) throws Exception {
    return ImageIO.read(
        new ByteArrayInputStream(ChartImage.PNG.render(chart, Axis.TIME, 1000, 560)));
  }
}
