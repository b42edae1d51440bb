package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.pdfbox.pdmodel.PDDocument;

/**
 * Writes a paper as PDF.
 *
 * @param hash of the paper
 */
record PaperDocument(Paper paper, PaperSize size, String hash) {

  private static final double SMALL = 7.5;

  static byte[] of(Paper paper, PaperSize size) {
    return new PaperDocument(paper, size, paper.hash()).written();
  }

  private byte[] written() {
    List<Strip> strips = new Typesetting(size.textWidth()).of(paper.blocks());
    List<List<Strip>> pages = PageBreaks.of(strips, size.textHeight());
    try (PDDocument document = new PDDocument()) {
      PdfDocument.describe(document, paper.title(), "SHA-256 " + hash, paper.asOf());
      var typeface = PdfDocument.typeface(document);
      for (int i = 0; i < pages.size(); i++) {
        List<Strip> page = pages.get(i);
        String number = "Page %d of %d".formatted(i + 1, pages.size());
        PdfDocument.addPage(document, size.sheet(), 1, typeface, g -> paint(g, page, number));
      }
      return PdfDocument.bytes(document);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void paint(Graphics2D g, List<Strip> page, String number) {
    Look.paper(
        g, (int) Math.ceil(size.sheet().getWidth()), (int) Math.ceil(size.sheet().getHeight()));
    double y = PaperSize.TOP;
    for (Strip strip : page) {
      if (strip.ink() != null) {
        strip.ink().draw(g, PaperSize.LEFT, y);
      }
      y += strip.height();
    }
    double foot = size.height() - PaperSize.BOTTOM + 24;
    furniture(g, Typeface.clean(paper.head()), number, PaperSize.TOP - 22, 4);
    furniture(g, "Document hash (SHA-256): " + hash, "Sapotrace", foot, -9);
  }

  /** A line of small words at both sides, and a rule below it or above it. */
  private void furniture(Graphics2D g, String left, String right, double baseline, double rule) {
    double width = Typeface.width(right, SMALL);
    double end = PaperSize.LEFT + size.textWidth();
    String fitting = Lines.shorten(left, SMALL, size.textWidth() - width - SMALL);
    new Label(fitting, PaperSize.LEFT, baseline, SMALL, Look.MUTED).draw(g);
    new Label(right, end - width, baseline, SMALL, Look.MUTED).draw(g);
    g.setColor(Look.GRID);
    g.setStroke(Look.solid(0.6));
    g.draw(new Line2D.Double(PaperSize.LEFT, baseline + rule, end, baseline + rule));
  }
}
