package org.sapotrace.chartimage;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;

/**
 * A piece of text at its place.
 *
 * @param text the words
 * @param x left end, px from the left
 * @param baseline px from the top
 * @param size of the type, px
 * @param colour of the ink
 */
record Label(String text, double x, double baseline, double size, Color colour) {

  /** Share of the type's size that stands above the baseline and below it. */
  private static final double ASCENT = 0.74;

  private static final double DESCENT = 0.21;

  /** A label whose capitals are centred on a height, in px from the top. */
  static Label centredOn(String text, double x, double middle, double size, Color colour) {
    return new Label(text, x, middle + size * 0.36, size, colour);
  }

  double width() {
    return Typeface.width(text, size);
  }

  Rectangle2D box() {
    return new Rectangle2D.Double(x, baseline - size * ASCENT, width(), size * (ASCENT + DESCENT));
  }

  /** Clears the paper under the text, so that no line runs through it, and draws. */
  void drawOnPaper(Graphics2D g) {
    g.setColor(Look.PAPER);
    double capital = size * ASCENT;
    g.fill(new Rectangle2D.Double(x - 1, baseline - capital, width() + 2, capital + 1));
    draw(g);
  }

  void draw(Graphics2D g) {
    g.setColor(colour);
    double at = x;
    for (Typeface.Run run : Typeface.runs(text, size)) {
      g.setFont(run.font());
      g.drawString(run.text(), (float) at, (float) baseline);
      at += run.width();
    }
  }
}
