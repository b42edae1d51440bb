package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.tuple;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.capability.Histogram;

class CapabilityPictureTest {

  static Stream<Arguments> everyOneAtEverySize() {
    return SampleCapabilities.all().keySet().stream()
        .flatMap(
            name ->
                Arrays.stream(new int[][] {{320, 240}, {600, 360}, {1000, 560}, {1600, 900}})
                    .map(size -> Arguments.of(name, size[0], size[1])));
  }

  private static SvgReading svg(CapabilityChart chart) throws Exception {
    return new SvgReading(ChartImage.SVG.render(chart, 1000, 560));
  }

  @ParameterizedTest(name = "{0} at {1} x {2}")
  @MethodSource("everyOneAtEverySize")
  void textsTouchNothingAndStayInside(String name, int width, int height) throws Exception {
    CapabilityChart chart = SampleCapabilities.all().get(name);
    SvgReading picture = new SvgReading(ChartImage.SVG.render(chart, width, height));
    picture.withoutCurve().assertTextsAreFree(width, height);
    assertThat(ChartImage.SVG.render(chart, width, height))
        .isEqualTo(ChartImage.SVG.render(chart, width, height));
  }

  // By hand: the percentiles of the normal distribution lie three standard deviations from the
  // mean.
  @Test
  void namesItsLinesWithTheirValuesInTheirColours() throws Exception {
    CapabilityChart chart = SampleCapabilities.normal();
    double mean = chart.capability().mean();
    double spread = 3 * chart.capability().standardDeviation();
    assertThat(svg(chart).texts())
        .extracting(SvgReading.Text::words, SvgReading.Text::fill)
        .contains(
            tuple("specification 66.2", "rgb(122,31,61)"),
            tuple("0.135 %%: %.1f".formatted(mean - spread), "rgb(95,108,123)"),
            tuple("median %.1f".formatted(mean), "rgb(95,108,123)"),
            tuple("99.865 %%: %.1f".formatted(mean + spread), "rgb(95,108,123)"));
  }

  @Test
  void drawsABarAsHighAsItsClassHasResults() throws Exception {
    CapabilityChart chart = SampleCapabilities.normal();
    BufferedImage image =
        ImageIO.read(new ByteArrayInputStream(ChartImage.PNG.render(chart, 1000, 560)));
    CapabilityPage page = CapabilityPage.of(chart, 1000, 560);
    Histogram histogram = chart.histogram();
    for (int i = 0; i < histogram.counts().size(); i++) {
      int count = histogram.counts().get(i);
      // In a corner of the bar, where neither the curve nor a line across is likely to pass.
      double value = histogram.start() + (i + 0.12) * histogram.width();
      int x = (int) (page.plot().x + page.values().along(value));
      double top = page.plot().y + page.counts().y(count);
      assertThat(image.getRGB(x, (int) top - 4)).isNotEqualTo(Look.BAR.getRGB());
      if (count > 2) {
        assertThat(colours(image, x, (int) top + 3, (int) top + 12)).contains(Look.BAR);
      }
    }
  }

  private static List<Color> colours(BufferedImage image, int x, int from, int to) {
    return IntStream.range(from, to).mapToObj(y -> new Color(image.getRGB(x, y))).toList();
  }

  /** Where a line is hardly thicker than a pixel, paper shines through. */
  private static boolean isLike(Color colour, Color ink) {
    return Math.abs(colour.getRed() - ink.getRed()) < 60
        && Math.abs(colour.getGreen() - ink.getGreen()) < 60
        && Math.abs(colour.getBlue() - ink.getBlue()) < 60;
  }

  @Test
  void drawsTheCurveOfTheDistributionThroughItsSummit() throws Exception {
    CapabilityChart chart = SampleCapabilities.skewed();
    BufferedImage image =
        ImageIO.read(new ByteArrayInputStream(ChartImage.PNG.render(chart, 1000, 560)));
    CapabilityPage page = CapabilityPage.of(chart, 1000, 560);
    for (double value : new double[] {3, 4.5, 7.2, 10.3, 14.4}) {
      double expected = 80 * chart.histogram().width() * chart.capability().shape().density(value);
      int x = (int) (page.plot().x + page.values().along(value));
      int y = (int) (page.plot().y + page.counts().y(expected));
      assertThat(colours(image, x, y - 2, y + 3))
          .as("at %s", value)
          .anyMatch(colour -> isLike(colour, Look.RESULT));
    }
  }

  @Test
  void pointsToASpecificationBeyondThePicture() throws Exception {
    assertThat(svg(SampleCapabilities.all().get("capability-far")).texts())
        .extracting(SvgReading.Text::words)
        .contains("specification 662 →");
  }

  @Test
  void saysWhatItShowsInWords() throws Exception {
    SvgReading picture = svg(SampleCapabilities.skewed());
    assertThat(picture.only("title"))
        .isEqualTo("Soap after the tower, Harbour line: Cpu 0.9 of 80 results");
    assertThat(picture.only("desc"))
        .startsWith(
            "Capability of soap, mg/kg: Harbour line; after the tower; 2 Mar – 21 May 2026; 80"
                + " results; judged by limits, revision 2; 1 beyond the specification. Curve: the"
                + " distribution that describes the results, normal after a power of 0.")
        .contains("; specification 20; ")
        .endsWith("with 95 % confidence.");
    assertThat(picture.texts())
        .extracting(SvgReading.Text::words)
        .contains(
            "number of results",
            "soap, mg/kg",
            "thin lines: 0.135 %, half and 99.865 % of it lie below",
            "Cpu 1: the specification stands where 99.865 % lie below");
  }

  @Test
  void isADocumentTooThatIsTheSameEveryTime() throws Exception {
    CapabilityChart chart = SampleCapabilities.normal();
    byte[] pdf = ChartImage.PDF.render(chart, 1000, 560);
    assertThat(ChartImage.PDF.render(chart, 1000, 560)).isEqualTo(pdf);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      assertThat(new PDFTextStripper().getText(document))
          .contains("specification 66.2", "none beyond the specification");
      assertThat(document.getDocumentInformation().getCreationDate().toInstant())
          .isEqualTo(chart.to());
    }
  }

  @Test
  void refusesSizesAsOtherPicturesDo() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ChartImage.PNG.render(SampleCapabilities.normal(), 319, 240))
        .withMessageContaining("from 320 to 4096 pixels");
  }
}
