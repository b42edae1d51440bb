package org.sapotrace.chartimage;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2DFontTextDrawer;
import java.awt.geom.AffineTransform;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.GregorianCalendar;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;

/** A picture as one page of PDF whose text is text, in a typeface that comes with it. */
final class PdfDocument {

  /** A px is 1/96 inch, as on the web; PDF counts in points of 1/72 inch. */
  private static final float POINTS_PER_PIXEL = 72f / 96f;

  private PdfDocument() {}

  static byte[] of(Painting painting, int width, int height) {
    try (PDDocument document = new PDDocument()) {
      describe(document, painting);
      PDPage page =
          new PDPage(new PDRectangle(width * POINTS_PER_PIXEL, height * POINTS_PER_PIXEL));
      document.addPage(page);
      PdfBoxGraphics2D surface = paint(document, painting, width, height);
      try (PDPageContentStream content = new PDPageContentStream(document, page)) {
        surface
            .getXFormObject()
            .setMatrix(AffineTransform.getScaleInstance(POINTS_PER_PIXEL, POINTS_PER_PIXEL));
        content.drawForm(surface.getXFormObject());
      }
      ByteArrayOutputStream bytes = new ByteArrayOutputStream();
      document.save(bytes);
      return bytes.toByteArray();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static PdfBoxGraphics2D paint(
      PDDocument document, Painting painting, int width, int height) throws IOException {
    PdfBoxGraphics2D surface = new PdfBoxGraphics2D(document, width, height);
    PdfBoxGraphics2DFontTextDrawer text = new PdfBoxGraphics2DFontTextDrawer();
    // Letters that our typeface lacks are drawn as outlines.
    try (InputStream typeface = Typeface.open()) {
      text.registerFont(Typeface.name(), PDType0Font.load(document, typeface, true));
    }
    surface.setFontTextDrawer(text);
    try {
      painting.paint(surface, width, height);
    } finally {
      surface.dispose();
    }
    return surface;
  }

  /**
   * Says what the document is. Its date is that of the latest result and its number is fixed, so
   * that the same chart is the same document, byte for byte.
   */
  private static void describe(PDDocument document, Painting painting) {
    PDDocumentInformation information = document.getDocumentInformation();
    information.setTitle(painting.title());
    information.setSubject(painting.description());
    information.setCreator("Sapotrace");
    Instant asOf = painting.asOf();
    if (asOf != null) {
      information.setCreationDate(
          GregorianCalendar.from(ZonedDateTime.ofInstant(asOf, ZoneOffset.UTC)));
    }
    document.setDocumentId(0L);
    document.getDocumentCatalog().setLanguage("en-GB");
    PDViewerPreferences preferences = new PDViewerPreferences(new COSDictionary());
    preferences.setDisplayDocTitle(true);
    document.getDocumentCatalog().setViewerPreferences(preferences);
  }
}
