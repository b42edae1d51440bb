package org.sapotrace.chartimage;

import java.util.Locale;
import org.apache.pdfbox.pdmodel.common.PDRectangle;

/** A size of paper, upright, with room for a binder at its left. */
public enum PaperSize {
  A4(210 * PaperSize.MILLIMETRE, 297 * PaperSize.MILLIMETRE),
  LETTER(8.5 * 72, 11 * 72);

  private static final double MILLIMETRE = 72 / 25.4;

  /** The margins in points of 1/72 inch: the left one, 25 mm, is punched. */
  static final double LEFT = 71;

  static final double RIGHT = 43;
  static final double TOP = 62;
  static final double BOTTOM = 60;

  private final double width;
  private final double height;

  PaperSize(double width, double height) {
    this.width = width;
    this.height = height;
  }

  /** The name in the interface, such as {@code letter}. */
  public String id() {
    return name().toLowerCase(Locale.ROOT);
  }

  double height() {
    return height;
  }

  PDRectangle sheet() {
    return new PDRectangle((float) width, (float) height);
  }

  /** Of a line of text, pt. */
  double textWidth() {
    return width - LEFT - RIGHT;
  }

  /** Of what stands on a page between its head and its foot, pt. */
  double textHeight() {
    return height - TOP - BOTTOM;
  }
}
