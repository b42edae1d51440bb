package org.sapotrace.chartimage;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2DFontTextDrawer;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.util.GregorianCalendar;
import java.util.function.Consumer;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDDocumentInformation;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.apache.pdfbox.pdmodel.interactive.viewerpreferences.PDViewerPreferences;
import org.jspecify.annotations.Nullable;

/** A picture as one page of PDF whose text is text, in a typeface that comes with it. */
final class PdfDocument {

  /** A px is 1/96 inch, as on the web; PDF counts in points of 1/72 inch. */
  private static final float POINTS_PER_PIXEL = 72f / 96f;

  private PdfDocument() {}

  static byte[] of(Painting painting, int width, int height) {
    try (PDDocument document = new PDDocument()) {
      describe(document, painting.title(), painting.description(), painting.asOf());
      addPage(
          document,
          new PDRectangle(width * POINTS_PER_PIXEL, height * POINTS_PER_PIXEL),
          POINTS_PER_PIXEL,
          typeface(document),
          g -> painting.paint(g, width, height));
      return bytes(document);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Our typeface, embedded once however many pages use it; other letters are drawn as outlines. */
  static PdfBoxGraphics2DFontTextDrawer typeface(PDDocument document) throws IOException {
    PdfBoxGraphics2DFontTextDrawer text = new PdfBoxGraphics2DFontTextDrawer();
    try (InputStream typeface = Typeface.open()) {
      text.registerFont(Typeface.name(), PDType0Font.load(document, typeface, true));
    }
    return text;
  }

  /**
   * Adds a page.
   *
   * @param sheet its size, pt
   * @param unit of what is painted, pt
   */
  static void addPage(
      PDDocument document,
      PDRectangle sheet,
      float unit,
      PdfBoxGraphics2DFontTextDrawer typeface,
      Consumer<Graphics2D> painting)
      throws IOException {
    PDPage page = new PDPage(sheet);
    document.addPage(page);
    PdfBoxGraphics2D surface =
        new PdfBoxGraphics2D(document, sheet.getWidth() / unit, sheet.getHeight() / unit);
    surface.setFontTextDrawer(typeface);
    try {
      painting.accept(surface);
    } finally {
      surface.dispose();
    }
    try (PDPageContentStream content = new PDPageContentStream(document, page)) {
      surface.getXFormObject().setMatrix(AffineTransform.getScaleInstance(unit, unit));
      content.drawForm(surface.getXFormObject());
    }
  }

  static byte[] bytes(PDDocument document) throws IOException {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    document.save(bytes);
    return bytes.toByteArray();
  }

  /**
   * Says what the document is. Its date is that of the latest result and its number is fixed, so
   * that the same chart is the same document, byte for byte.
   */
  static void describe(PDDocument document, String title, String subject, @Nullable Instant asOf) {
    PDDocumentInformation information = document.getDocumentInformation();
    information.setTitle(title);
    information.setSubject(subject);
    information.setCreator("Sapotrace");
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
