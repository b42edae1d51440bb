package org.sapotrace.chartimage;

import java.awt.RenderingHints;
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

  /** A withdrawn result. */
  static Plot.Mark ring(double radius, double thickness) {
    return (g, x, y) -> {
      g.setStroke(Look.solid(thickness));
      // Else Java moves the ring onto whole pixels, and a small one is no circle any more.
      g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
      g.draw(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
    };
  }

  /** The cloth of a flag, from the top of its pole to the right. */
  static Plot.Mark pennant(double size) {
    return (g, x, y) -> {
      Path2D shape = new Path2D.Double();
      shape.moveTo(x, y);
      shape.lineTo(x + size, y + size / 2);
      shape.lineTo(x, y + size);
      shape.closePath();
      g.fill(shape);
    };
  }

  /** The box of a mark. */
  static Rectangle2D around(double x, double y, double radius) {
    return new Rectangle2D.Double(x - radius, y - radius, 2 * radius, 2 * radius);
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
