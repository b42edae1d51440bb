package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import org.jspecify.annotations.Nullable;

/**
 * A stretch of a paper over its whole width, between which a page may end.
 *
 * @param height in pt
 * @param staysWithNext whether no page may end behind it
 * @param heading what stands above it again where it begins a page; null for nothing
 * @param ink what it shows; null for mere space, which is left out at the top of a page
 */
record Strip(double height, boolean staysWithNext, @Nullable Strip heading, @Nullable Ink ink) {

  /** Draws what a strip shows. */
  interface Ink {

    /**
     * Draws.
     *
     * @param x left edge of the text, pt
     * @param y upper edge of the strip, pt from the top
     */
    void draw(Graphics2D g, double x, double y);
  }

  /** Space that fills any page. */
  static final Strip PAGE_END = new Strip(Double.POSITIVE_INFINITY, false, null, null);

  static Strip space(double height) {
    return new Strip(height, true, null, null);
  }
}
