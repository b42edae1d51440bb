package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.time.Instant;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.rendering.PDFRenderer;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.ControlChart;

class PdfPictureTest {

  private static PDDocument pdf(ControlChart chart, int width, int height) throws IOException {
    return Loader.loadPDF(ChartImage.PDF.render(chart, Axis.TIME, width, height));
  }

  private static String text(ControlChart chart) throws IOException {
    try (PDDocument document = pdf(chart, 1000, 560)) {
      return new PDFTextStripper().getText(document);
    }
  }

  @Test
  void hasOnePageOfThreeQuartersOfAPointForEachPixel() throws Exception {
    try (PDDocument document = pdf(SampleCharts.beyond(), 1000, 560)) {
      assertThat(document.getNumberOfPages()).isEqualTo(1);
      PDRectangle page = document.getPage(0).getMediaBox();
      assertThat(page.getWidth()).isEqualTo(750);
      assertThat(page.getHeight()).isEqualTo(420);
    }
  }

  @Test
  void canBeSearched() throws Exception {
    assertThat(text(SampleCharts.beyond()))
        .contains(
            "Soap after the tower, harbour line: two results beyond the upper control limit",
            "upper control limit 43.0",
            "specification 66.2",
            "one result beyond a control limit",
            "vertical bar: ± 2 standard uncertainties");
    assertThat(text(SampleCharts.cusum())).contains("decision value −5");
    assertThat(text(SampleCharts.farSpecification())).contains("specification 662 ↑");
  }

  @Test
  void bringsItsTypeface() throws Exception {
    try (PDDocument document = pdf(SampleCharts.beyond(), 1000, 560)) {
      PDResources page = document.getPage(0).getResources();
      COSName form = page.getXObjectNames().iterator().next();
      PDResources resources = ((PDFormXObject) page.getXObject(form)).getResources();
      assertThat(resources.getFontNames())
          .singleElement()
          .satisfies(
              name -> {
                assertThat(resources.getFont(name).getName()).endsWith("LiberationSans");
                assertThat(resources.getFont(name).isEmbedded()).isTrue();
              });
    }
  }

  @Test
  void saysWhatItIs() throws Exception {
    try (PDDocument document = pdf(SampleCharts.beyond(), 600, 360)) {
      assertThat(document.getDocumentInformation().getTitle())
          .isEqualTo(
              "Soap after the tower, harbour line: two results beyond the upper control limit");
      assertThat(document.getDocumentInformation().getSubject())
          .startsWith("Individuals chart of soap in mg/kg, Harbour line, after the tower: 26 r");
      assertThat(document.getDocumentInformation().getCreationDate().toInstant())
          .isEqualTo(Instant.parse("2026-03-27T06:00:00Z"));
      assertThat(document.getDocumentCatalog().getLanguage()).isEqualTo("en-GB");
    }
    try (PDDocument document = pdf(SampleCharts.all().get("empty"), 600, 360)) {
      assertThat(document.getDocumentInformation().getCreationDate()).isNull();
    }
  }

  @Test
  void keepsNamesHoweverHostile() throws Exception {
    assertThat(text(SampleCharts.scripts())).contains("Мыло после башни, σαπούνι", "<b>\"Süd\"");
  }

  @Test
  void showsEachResultWhereThePixelsShowIt() throws Exception {
    ControlChart chart = SampleCharts.beyond();
    Page page = Page.of(chart, Axis.TIME, 1000, 560);
    try (PDDocument document = pdf(chart, 1000, 560)) {
      BufferedImage image = new PDFRenderer(document).renderImageWithDPI(0, 96);
      assertThat((double) image.getWidth()).isCloseTo(1000, within(1.0));
      for (ControlChart.Point point : chart.points()) {
        int x = (int) (page.plot().x + page.across().x(point));
        int y = (int) (page.plot().y + page.values().y(point.plotted()));
        int expected = (point.signals().isEmpty() ? Look.RESULT : Look.SIGNAL).getRGB();
        assertThat(image.getRGB(x, y)).as("%s", point).isEqualTo(expected);
      }
    }
  }
}
