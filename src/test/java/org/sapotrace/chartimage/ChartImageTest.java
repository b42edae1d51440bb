package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.controlchart.ControlChart;

class ChartImageTest {

  static Stream<ControlChart> everyChart() {
    return SampleCharts.all().values().stream();
  }

  private static BufferedImage png(ControlChart chart, int width, int height) throws Exception {
    return ImageIO.read(
        new ByteArrayInputStream(ChartImage.PNG.render(chart, Axis.TIME, width, height)));
  }

  private static boolean isAt(BufferedImage image, double x, double y, Color colour) {
    return image.getRGB((int) x, (int) y) == colour.getRGB();
  }

  private static long count(BufferedImage image, Color colour) {
    int[] pixels =
        image.getRGB(0, 0, image.getWidth(), image.getHeight(), null, 0, image.getWidth());
    return Arrays.stream(pixels).filter(pixel -> pixel == colour.getRGB()).count();
  }

  @Test
  void namesItsMediaType() {
    assertThat(ChartImage.PNG.mediaType()).isEqualTo("image/png");
    assertThat(ChartImage.SVG.mediaType()).isEqualTo("image/svg+xml");
    assertThat(ChartImage.PDF.mediaType()).isEqualTo("application/pdf");
  }

  @ParameterizedTest
  @CsvSource({"320,240", "600,360", "1000,560", "1600,900", "4096,240", "320,4096"})
  void isExactlyAsLargeAsAskedAndOnPaper(int width, int height) throws Exception {
    BufferedImage image = png(SampleCharts.drifting(), width, height);
    assertThat(image.getWidth()).isEqualTo(width);
    assertThat(image.getHeight()).isEqualTo(height);
    assertThat(isAt(image, 0, 0, Look.PAPER)).isTrue();
    assertThat(isAt(image, width - 1, height - 1, Look.PAPER)).isTrue();
  }

  @ParameterizedTest
  @CsvSource({
    "319,240,The width of a picture must be from 320 to 4096 pixels",
    "4097,240,The width of a picture must be from 320 to 4096 pixels",
    "320,239,The height of a picture must be from 240 to 4096 pixels",
    "320,4097,The height of a picture must be from 240 to 4096 pixels",
    "4096,1954,more than 8 million pixels"
  })
  void refusesSizesOutOfRangeSayingWhatIsAllowed(int width, int height, String reason) {
    for (ChartImage form : ChartImage.values()) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> form.render(SampleCharts.drifting(), Axis.TIME, width, height))
          .withMessageContaining(reason)
          .withMessageMatching("[A-Z].*\\.");
    }
  }

  @ParameterizedTest
  @MethodSource("everyChart")
  void isTheSameEveryTime(ControlChart chart) {
    for (ChartImage form : ChartImage.values()) {
      assertThat(form.render(chart, Axis.TIME, 600, 360))
          .isEqualTo(form.render(chart, Axis.TIME, 600, 360));
    }
  }

  @Test
  void isTheSameFromEightThreadsAtOnce() throws Exception {
    Map<String, ControlChart> charts = SampleCharts.all();
    ExecutorService pool = Executors.newFixedThreadPool(8);
    try {
      for (ChartImage form : ChartImage.values()) {
        List<Callable<byte[]>> jobs = new ArrayList<>();
        List<byte[]> expected = new ArrayList<>();
        for (String name : List.of("drifting", "two-phases", "scripts", "far-specification")) {
          ControlChart chart = charts.get(name);
          for (int i = 0; i < 10; i++) {
            jobs.add(() -> form.render(chart, Axis.TIME, 600, 360));
            expected.add(form.render(chart, Axis.TIME, 600, 360));
          }
        }
        List<byte[]> drawn = new ArrayList<>();
        for (Future<byte[]> job : pool.invokeAll(jobs)) {
          drawn.add(job.get());
        }
        assertThat(drawn).usingElementComparator(Arrays::compare).isEqualTo(expected);
      }
    } finally {
      pool.shutdownNow();
    }
  }

  @ParameterizedTest
  @CsvSource({"600,360", "1000,560", "1600,900"})
  void drawsTheUpperLimitInDashesAtItsValue(int width, int height) throws Exception {
    ControlChart chart = SampleCharts.all().get("in-control");
    // The axis as a reader reads it: where the words 20 and 60 stand says where 43.0 lies.
    List<SvgReading.Text> texts =
        new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, width, height)).texts();
    double at20 = middle(texts, "20");
    double at60 = middle(texts, "60");
    double row = at20 + (43.0 - 20) / (60 - 20) * (at60 - at20);
    BufferedImage image = png(chart, width, height);
    int left = (int) (width * 0.1);
    int right = (int) (width * 0.7);
    int best = 0;
    int turns = 0;
    for (int y = (int) row - 1; y <= row + 1; y++) {
      int inked = 0;
      int changes = 0;
      for (int x = left; x < right; x++) {
        boolean ink = isAt(image, x, y, Look.LIMIT);
        inked += ink ? 1 : 0;
        changes += ink != isAt(image, x - 1, y, Look.LIMIT) ? 1 : 0;
      }
      turns = inked > best ? changes : turns;
      best = Math.max(best, inked);
    }
    assertThat(best / (double) (right - left)).isBetween(0.45, 0.75);
    assertThat(turns).isGreaterThan(20);
  }

  private static double middle(List<SvgReading.Text> texts, String words) {
    return texts.stream()
        .filter(text -> text.words().equals(words))
        .mapToDouble(text -> text.baseline() - 0.36 * text.size())
        .findFirst()
        .orElseThrow();
  }

  @Test
  void drawsADiamondForEachSignalAndNoneWithout() throws Exception {
    assertThat(count(png(SampleCharts.all().get("in-control"), 1000, 560), Look.SIGNAL)).isZero();
    ControlChart chart = SampleCharts.beyond();
    BufferedImage image = png(chart, 1000, 560);
    Page page = Page.of(chart, Axis.TIME, 1000, 560);
    int solid = 0;
    for (ControlChart.Point point : chart.points()) {
      double x = page.plot().x + page.across().x(point);
      double y = page.plot().y + page.values().y(point.plotted());
      Color expected = point.signals().isEmpty() ? Look.RESULT : Look.SIGNAL;
      assertThat(isAt(image, x, y, expected)).as("%s", point).isTrue();
      solid += point.signals().isEmpty() ? 0 : 1;
    }
    assertThat(solid).isEqualTo(2);
  }

  @ParameterizedTest
  @CsvSource({"1e300", "1e-300", "-1e300", "0", "1e15"})
  void drawsValuesOfAnySize(double value) {
    ControlChart chart =
        new SampleChart()
            .limits(1, "adopted", -value, 0.0, value)
            .specification(null, 2 * value)
            .points(value, -value, value / 2, 0, Double.NaN, value)
            .build();
    for (ChartImage form : ChartImage.values()) {
      assertThat(form.render(chart, Axis.TIME, 600, 360)).isNotEmpty();
    }
  }

  @Test
  void drawsASpecificationFromWhereItCameIntoForce() throws Exception {
    ControlChart whole = SampleCharts.drifting();
    List<ControlChart.Point> points = whole.points();
    ControlChart changed =
        new ControlChart(
            whole.kind(),
            whole.headline(),
            whole.line(),
            whole.stream(),
            whole.quantity(),
            whole.unit(),
            whole.scale(),
            whole.limitsRevision(),
            whole.limitsStatus(),
            whole.detectors(),
            new ControlChart.Specification(null, 66.2, points.get(points.size() / 2).at()),
            points,
            List.of(),
            List.of(),
            List.of());

    assertThat(count(leftThird(png(whole, 1000, 560)), Look.SPECIFICATION)).isPositive();
    assertThat(count(leftThird(png(changed, 1000, 560)), Look.SPECIFICATION)).isZero();
    assertThat(count(png(changed, 1000, 560), Look.SPECIFICATION)).isPositive();
  }

  private static BufferedImage leftThird(BufferedImage image) {
    return image.getSubimage(0, 0, image.getWidth() / 3, image.getHeight());
  }
}
