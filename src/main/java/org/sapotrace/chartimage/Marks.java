package org.sapotrace.chartimage;

import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;

/** The shapes that stand for results. */
final class Marks {

  private Marks() {}

  /** A result. */
  static Plot.Mark circle(double radius) {
    return (g, x, y) ->
        g.fill(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
  }

  /** What a result whose sample took no more titrant than the blank stands on. */
  static Plot.Mark tick(double radius, double thickness) {
    return (g, x, y) ->
        g.fill(new Rectangle2D.Double(x - 2 * radius, y + radius + 1, 4 * radius, thickness));
  }

  /** A result with a signal. */
  static Plot.Mark diamond(double radius) {
    return (g, x, y) -> {
      Path2D shape = new Path2D.Double();
      shape.moveTo(x, y - radius);
      shape.lineTo(x + radius, y);
      shape.lineTo(x, y + radius);
      shape.lineTo(x - radius, y);
      shape.closePath();
      g.fill(shape);
    };
  }
}
