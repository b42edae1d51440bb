package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.awt.geom.Rectangle2D;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.RunRule;

class SvgPictureTest {

  static Stream<Arguments> everyChartAtEverySize() {
    return SampleCharts.all().entrySet().stream()
        .flatMap(
            chart ->
                Arrays.stream(PictureGallery.SIZES)
                    .flatMap(
                        size ->
                            Arrays.stream(Axis.values())
                                .map(
                                    axis -> Arguments.of(chart.getKey(), axis, size[0], size[1]))));
  }

  @ParameterizedTest(name = "{0} along {1} at {2} x {3}")
  @MethodSource("everyChartAtEverySize")
  void textsTouchNeitherEachOtherNorAnyResultAndStayInside(
      String name, Axis axis, int width, int height) throws Exception {
    ControlChart chart = SampleCharts.all().get(name);
    new SvgReading(ChartImage.SVG.render(chart, axis, width, height))
        .assertTextsAreFree(width, height);
  }

  @Test
  void saysWhatItShowsInWords() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.beyond(), Axis.TIME, 600, 360));
    assertThat(picture.root().getAttribute("role")).isEqualTo("img");
    assertThat(picture.root().getAttribute("width")).isEqualTo("600");
    assertThat(picture.root().getAttribute("height")).isEqualTo("360");
    assertThat(picture.only("title"))
        .isEqualTo(
            "Soap after the tower, harbour line: two results beyond the upper control limit");
    assertThat(picture.only("desc"))
        .isEqualTo(
            "Individuals chart of soap in mg/kg, Harbour line, after the tower: 26 results,"
                + " 2 Mar – 27 Mar 2026; adopted limits, revision 1; rules: beyond limits, two of"
                + " three beyond 2s, six trending. Lines: specification 66.2; upper control limit"
                + " 43.0; centre 31.2; lower control limit 19.4. 2 results carry a signal: beyond"
                + " limits at 2, two of three beyond 2s at 1.");
  }

  @Test
  void namesEachLineWithItsValueInItsColour() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.beyond(), Axis.TIME, 1000, 560));
    assertThat(picture.texts())
        .extracting(SvgReading.Text::words, SvgReading.Text::fill)
        .contains(
            tuple("specification 66.2", "rgb(122,31,61)"),
            tuple("upper control limit 43.0", "rgb(138,75,8)"),
            tuple("centre 31.2", "rgb(95,108,123)"),
            tuple("lower control limit 19.4", "rgb(138,75,8)"));
  }

  @Test
  void explainsTheLettersItUsesAndNoOthers() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.beyond(), Axis.TIME, 1000, 560));
    assertThat(picture.texts())
        .extracting(SvgReading.Text::words)
        .contains(
            "L",
            "LT",
            "one result beyond a control limit",
            RunRule.TWO_OF_THREE_BEYOND_2S.description(),
            "vertical bar: ± 2 standard uncertainties")
        .doesNotContain("six in a row rising or falling");
    assertThat(picture.diamonds()).hasSize(2);
    assertThat(picture.circles()).hasSize(24);
  }

  @Test
  void givesLettersToTheFirstOfSeveralWithTheSameSignals() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.drifting(), Axis.TIME, 1600, 900));
    List<String> words = picture.texts().stream().map(SvgReading.Text::words).toList();

    List<String> inTurn =
        SampleCharts.drifting().points().stream().map(Statistic.PLOTTED::letters).toList();
    long changes =
        IntStream.range(0, inTurn.size())
            .filter(i -> !inTurn.get(i).isEmpty())
            .filter(i -> i == 0 || !inTurn.get(i).equals(inTurn.get(i - 1)))
            .count();
    // Beside the results, and once more for each rule in the explanation.
    long explained = new Explanations(SampleCharts.drifting()).signalled().size();
    assertThat(words.stream().filter(word -> word.matches("[LTFENRZWO]{1,9}")).count())
        .isEqualTo(changes + explained);
    assertThat(words).contains("diamond without letters: as the one before it");
  }

  static Stream<ControlChart> chartsWithRoomBesideTheirLines() {
    return Stream.of(
        SampleCharts.beyond(),
        SampleCharts.drifting(),
        SampleCharts.everyRule(),
        SampleCharts.underALimit());
  }

  @ParameterizedTest
  @MethodSource("chartsWithRoomBesideTheirLines")
  void keepsLettersOffTheLinesThatRunAcross(ControlChart chart) throws Exception {
    Page page = Page.of(chart, Axis.TIME, 600, 360);
    List<Rectangle2D> letters =
        new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, 600, 360))
            .texts().stream()
                .filter(text -> text.words().matches("[LTFENRZWO]{1,9}"))
                .map(SvgReading.Text::box)
                .filter(box -> box.getMaxY() < page.plot().getMaxY())
                .toList();
    assertThat(letters).isNotEmpty();
    for (Level level : page.levels()) {
      double y = page.levelY(level);
      // Letters stand on a little paper of their own, and the lines are 1.4 px thick.
      assertThat(letters).noneMatch(box -> box.getMinY() - 1.7 <= y && y <= box.getMaxY() + 1.7);
    }
  }

  @Test
  void pointsToASpecificationThatLiesBeyondThePicture() throws Exception {
    byte[] svg = ChartImage.SVG.render(SampleCharts.farSpecification(), Axis.TIME, 600, 360);
    assertThat(new SvgReading(svg).texts())
        .extracting(SvgReading.Text::words)
        .contains("specification 662 ↑");
  }

  @Test
  void keepsNamesHoweverHostile() throws Exception {
    byte[] svg = ChartImage.SVG.render(SampleCharts.scripts(), Axis.TIME, 600, 360);
    SvgReading picture = new SvgReading(svg);
    assertThat(picture.only("title"))
        .isEqualTo("Seife <nach> dem \"Turm\" & Мыло после башни, σαπούνι, 肥皂  \uFFFD !");
    assertThat(picture.only("desc")).contains("Línea <b>\"Süd\" & Öst</b>, Мыло ]]> 皂: 12");
    assertThat(picture.root().getElementsByTagName("b").getLength()).isZero();
  }

  @Test
  void needsNothingFromElsewhereAndClashesWithNoOtherPicture() {
    String svg =
        new String(
            ChartImage.SVG.render(SampleCharts.drifting(), Axis.TIME, 600, 360),
            StandardCharsets.UTF_8);
    assertThat(svg).doesNotContain("DOCTYPE", " id=", "url(", "href", "<script", "<style");
    assertThat(svg).contains("font-family=\"Liberation Sans, Arial, Helvetica, sans-serif\"");
    // 23 results in 14 kB: words as outlines would need ten times that.
    assertThat(svg.length()).isLessThan(20_000);
  }

  @Test
  void cutsAHeadlineOfManyLinesOpenly() throws Exception {
    String sentence = "Nothing has changed since the limits were adopted. ".repeat(12);
    ControlChart chart = new SampleChart().headline(sentence).points(30, 31).build();
    SvgReading picture = new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, 600, 360));
    assertThat(picture.texts()).extracting(SvgReading.Text::words).anyMatch(w -> w.endsWith("…"));
    assertThat(picture.only("title")).isEqualTo(sentence.strip());
  }

  @Test
  void writesASmallPictureWithShorterNamesThatStillDiffer() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.closeLimits(), Axis.TIME, 320, 240));
    assertThat(picture.texts())
        .extracting(SvgReading.Text::words)
        .contains(
            "upper spec. 32",
            "upper limit 31.50",
            "centre 31.20",
            "lower limit 30.90",
            "lower spec. 10 ↓");
    ControlChart huge = SampleCharts.all().get("huge");
    assertThat(new SvgReading(ChartImage.SVG.render(huge, Axis.TIME, 320, 240)).texts())
        .extracting(SvgReading.Text::words)
        .contains("UCL 4.360e9", "centre 4.300e9", "LCL 4.240e9");
  }

  @Test
  void endsTheLimitsOfOnePhaseBeforeThoseOfTheNext() throws Exception {
    SvgReading picture =
        new SvgReading(ChartImage.SVG.render(SampleCharts.twoPhases(), Axis.TIME, 1000, 560));
    assertThat(picture.texts())
        .extracting(SvgReading.Text::words)
        .contains("revision 1", "revision 2", "upper control limit 27.9")
        .doesNotContain("upper control limit 43.0");
  }
}
