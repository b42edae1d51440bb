package org.sapotrace.chartimage;

import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;

/** The words at the axes of a plot. */
final class AxisLabels {

  private AxisLabels() {}

  /** The room that those at the vertical axis take, px. */
  static double width(ValueScale values, double font) {
    Digits digits = values.tickDigits(Page.tickSpacing(font));
    return values.ticks(Page.tickSpacing(font)).stream()
        .mapToDouble(tick -> Typeface.width(digits.write(tick), font))
        .max()
        .orElse(0);
  }

  /** The least distance of ticks of a horizontal axis, px. */
  static double apart(double font) {
    return 4.4 * font;
  }

  /** At the ticks of a vertical axis, at least a spacing apart, in px of the picture. */
  static List<Label> beside(Rectangle plot, ValueScale values, double spacing, double font) {
    List<Label> labels = new ArrayList<>();
    Digits digits = values.tickDigits(spacing);
    for (double tick : values.ticks(spacing)) {
      String text = digits.write(tick);
      double x = plot.x - 0.7 * font - Typeface.width(text, font);
      labels.add(Label.centredOn(text, x, plot.y + values.y(tick), font, Look.MUTED));
    }
    return labels;
  }

  /** Under a horizontal axis, in px of the picture. */
  static List<Label> under(int left, int axis, List<Abscissa.Tick> ticks, double font) {
    List<Label> labels = new ArrayList<>();
    double row = axis + 1.55 * font;
    String context = "";
    double free = 0;
    for (Abscissa.Tick tick : ticks) {
      labels.add(centred(tick.label(), left + tick.x(), row, font));
      Label second = centred(tick.context(), left + tick.x(), row + 1.2 * font, font);
      if (!tick.context().equals(context) && second.x() >= free) {
        labels.add(second);
        context = tick.context();
        free = second.box().getMaxX() + font / 2;
      }
    }
    return labels;
  }

  private static Label centred(String text, double middle, double baseline, double size) {
    // The first date of a day may be wider than the room to its left.
    double x = Math.max(1.1 * size, middle - Typeface.width(text, size) / 2);
    return new Label(text, x, baseline, size, Look.MUTED);
  }
}
