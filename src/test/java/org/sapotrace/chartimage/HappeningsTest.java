package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sapotrace.controlchart.ControlChart;

/** Changes, events and withdrawn results on pictures. */
class HappeningsTest {

  private static SvgReading svg(ControlChart chart, int width, int height) throws Exception {
    return new SvgReading(ChartImage.SVG.render(chart, Axis.TIME, width, height));
  }

  private static List<String> words(ControlChart chart, int width, int height) throws Exception {
    return svg(chart, width, height).texts().stream().map(SvgReading.Text::words).toList();
  }

  private static BufferedImage png(ControlChart chart, Axis axis) throws Exception {
    return ImageIO.read(new ByteArrayInputStream(ChartImage.PNG.render(chart, axis, 1000, 560)));
  }

  private static boolean isNear(BufferedImage image, double x, double y, Color colour) {
    for (int i = -1; i <= 1; i++) {
      Color there = new Color(image.getRGB((int) Math.round(x) + i, (int) y));
      // Paper shines through what is hardly thicker than a pixel.
      if (Math.abs(there.getRed() - colour.getRed()) < 60
          && Math.abs(there.getGreen() - colour.getGreen()) < 60) {
        return true;
      }
    }
    return false;
  }

  @ParameterizedTest
  @EnumSource(Axis.class)
  void aThinLineStandsAtTheFirstResultBehindTheChange(Axis axis) throws Exception {
    ControlChart chart = SampleCharts.change();
    Page page = Page.of(chart, axis, 1000, 560);
    // Daily results since 2 March: the thirteenth was sampled on the 14th.
    double x = page.plot().x + page.across().x(chart.points().get(12));
    BufferedImage image = png(chart, axis);
    int inked = 0;
    for (int y = page.plot().y - 10; y < page.plot().getMaxY(); y++) {
      inked += isNear(image, x, y, Look.SIGNAL) ? 1 : 0;
    }
    assertThat(inked).isGreaterThan((int) (0.8 * page.plot().height));
  }

  @Test
  void aBracketReachesOverWhereTheChangeMayHaveBegun() throws Exception {
    ControlChart chart = SampleCharts.change();
    Page page = Page.of(chart, Axis.TIME, 1000, 560);
    BufferedImage image = png(chart, Axis.TIME);
    int above = page.plot().y - (int) Math.round(4 * page.unit());
    for (int i = 0; i < 22; i++) {
      double x = page.plot().x + page.across().x(chart.points().get(i)) + 4;
      boolean inked =
          isNear(image, x, above, Look.FAINT_SIGNAL)
              || isNear(image, x, above - 1.0, Look.FAINT_SIGNAL);
      assertThat(inked).as("result %d", i).isEqualTo(i >= 10 && i < 14);
    }
    assertThat(words(chart, 1000, 560))
        .contains("change about 14 Mar", "bracket: where the change may have begun");
  }

  @Test
  void aFindingStandsBesideItsChange() throws Exception {
    assertThat(words(SampleCharts.happenings(), 1000, 560))
        .contains(
            "change about 5 Mar: sampled before settling",
            "change about 14 Mar: channelling in the tower, resin dry at the top");
    assertThat(words(SampleCharts.happenings(), 600, 360))
        .anyMatch(text -> text.matches("change about 14 Mar: channelling in .*…"));
  }

  @Test
  void aChangeBeforeTheFirstResultIsPointedToWithoutALine() throws Exception {
    ControlChart chart = SampleCharts.changedBefore();
    assertThat(words(chart, 600, 360)).contains("← change about 20 Feb");
    Page page = Page.of(chart, Axis.TIME, 1000, 560);
    BufferedImage image = png(chart, Axis.TIME);
    int middle = (int) page.plot().getMaxY() - 20;
    for (int x = page.plot().x; x < page.plot().getMaxX(); x++) {
      assertThat(image.getRGB(x, middle)).isNotEqualTo(Look.SIGNAL.getRGB());
    }
  }

  @Test
  void aFlagStandsOnTheAxisWithItsNote() throws Exception {
    SvgReading picture = svg(SampleCharts.happenings(), 1000, 560);
    Page page = Page.of(SampleCharts.happenings(), Axis.TIME, 1000, 560);
    List<Rectangle2D> flags =
        picture.diamonds().stream().filter(box -> box.getMinY() > page.plot().getMaxY()).toList();
    assertThat(flags).hasSize(3);
    assertThat(picture.texts())
        .filteredOn(text -> text.words().equals("titrant change: lot hcl-08 opened"))
        .singleElement()
        .satisfies(
            text -> {
              assertThat(text.x() - flags.get(0).getMinX()).isBetween(5.0, 15.0);
              assertThat(text.baseline()).isLessThan(page.plot().getMaxY() + page.foot());
            });
    assertThat(picture.only("desc"))
        .contains(
            "Change about 14 Mar, between 12 Mar and 16 Mar: channelling in the tower, resin dry at"
                + " the top. Events: 4 Mar titrant change: lot hcl-08 opened; 13 Mar feed change: used"
                + " frying oil from the second collector; 23 Mar media change.");
  }

  @Test
  void eventsTooCloseForWordsAreToldUnderThePicture() throws Exception {
    assertThat(words(SampleCharts.eventsClose(), 600, 360))
        .contains("pump 15 taken out and cleaned")
        .contains("flag of 10 Mar: maintenance: pump 10 taken out and cleaned");
    assertThat(words(SampleCharts.eventsClose(), 1600, 900))
        .contains(
            "maintenance: pump 15 taken out and cleaned",
            "holidays begin, one shift only from now on");
  }

  @Test
  void aWithdrawnResultIsAHollowCircle() throws Exception {
    ControlChart chart = SampleCharts.withdrawn();
    BufferedImage image = png(chart, Axis.TIME);
    Page page = Page.of(chart, Axis.TIME, 1000, 560);
    for (ControlChart.Withdrawn result : chart.withdrawn()) {
      if (page.values().shows(result.value())) {
        double x = page.plot().x + page.across().x(result.at());
        double y = page.plot().y + page.values().y(result.value());
        double radius = 3.2 * page.unit();
        assertThat(image.getRGB((int) x, (int) y)).isEqualTo(Look.PAPER.getRGB());
        assertThat(isNear(image, x - radius, y, Look.MUTED)).isTrue();
        assertThat(isNear(image, x + radius, y, Look.MUTED)).isTrue();
      }
    }
    assertThat(svg(chart, 1000, 560).circles()).hasSize(22 + 2);
    assertThat(svg(chart, 1000, 560).only("desc")).endsWith("Withdrawn: 3 results.");
    assertThat(words(chart, 1000, 560))
        .contains("hollow circle: withdrawn", "withdrawn, far beyond the picture: 1");
  }
}
