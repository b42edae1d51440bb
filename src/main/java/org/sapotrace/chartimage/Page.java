package org.sapotrace.chartimage;

import java.awt.Rectangle;
import java.util.ArrayList;
import java.util.List;
import org.sapotrace.controlchart.ControlChart;

/**
 * Where everything on a picture lies: the headline and the circumstances above the plot, the axes
 * beside it, the explanations under it.
 *
 * @param font size of the type in the plot, px
 * @param plot the rectangle that the scales fill, px
 * @param values the vertical axis
 * @param time the horizontal axis
 * @param ticks of the horizontal axis
 * @param levels the lines to be named at the right edge
 * @param labels every text outside the plot but the names of the lines and phases
 * @param namesFrom the least x of a phase's name above the plot, px
 * @param brevity which of a line's names is used
 */
record Page(
    double font,
    Rectangle plot,
    ValueScale values,
    TimeScale time,
    List<TimeScale.Tick> ticks,
    List<Level> levels,
    List<Label> labels,
    double namesFrom,
    int brevity) {

  /** Height of a line of text over the size of its type. */
  static final double LINE = 1.3;

  /** The greatest share of the width that the names of the lines may take. */
  private static final double EDGE_SHARE = 0.22;

  static Page of(ControlChart chart, int width, int height) {
    double font = typeSize(width, height);
    double margin = Math.round(1.1 * font);
    Wording wording = new Wording(chart);
    List<String> explanations = wording.explanations(showsBars(chart, width));
    Headings headings = new Headings(font, margin, width - 2 * margin);
    List<Label> labels = new ArrayList<>();
    double head = headings.above(wording, height, margin, labels);
    labels.add(new Label(wording.axis(), margin, head + font * 1.95, font, Look.MUTED));
    double foot = headings.below(explanations, height, height - margin, labels);
    int top = (int) Math.round(head + font * 3.0);
    int bottom = (int) Math.round(foot - font * 3.4);

    ValueScale values = ValueScale.of(chart, bottom - top, font / 11);
    List<Level> levels = Level.of(chart);
    int brevity = brevity(levels, values, font, width * EDGE_SHARE);
    int left = (int) Math.ceil(margin + valueLabelWidth(values, font) + 0.7 * font);
    int right = (int) Math.floor(width - margin - edgeWidth(levels, values, font, brevity));
    Rectangle plot = new Rectangle(left, top, right - left, bottom - top);
    TimeScale time = TimeScale.of(chart.points(), plot.width, 10 * font / 11);
    List<TimeScale.Tick> ticks = time.ticks(font * 4.4);
    labels.addAll(axisLabels(plot, values, ticks, font));
    double namesFrom = margin + Typeface.width(wording.axis(), font) + 1.5 * font;
    return new Page(font, plot, values, time, ticks, levels, labels, namesFrom, brevity);
  }

  private static double typeSize(int width, int height) {
    double scale = Math.min(width / 600.0, height / 360.0);
    return Math.min(28, Math.max(9.5, 11 * Math.pow(scale, 0.45)));
  }

  /** A pen of one point at a width of 600 px, thicker on larger pictures. */
  double unit() {
    return font / 11;
  }

  /** Uncertainty is shown where its bars stay apart. */
  static boolean showsBars(ControlChart chart, double width) {
    return chart.points().size() * 7.0 <= width
        && chart.points().stream().anyMatch(point -> point.standardUncertainty() != null);
  }

  /** The names of the lines, moved apart. */
  List<Label> edgeLabels() {
    double line = font * LINE;
    double[] targets = levels.stream().mapToDouble(this::levelY).toArray();
    double[] middles = EdgeLabels.spread(targets, line, plot.y, plot.y + plot.height - font / 2);
    List<Label> named = new ArrayList<>();
    double x = plot.x + plot.width + font;
    for (int i = 0; i < middles.length; i++) {
      Level level = levels.get(i);
      String text = level.text(brevity, values);
      named.add(Label.centredOn(text, x, middles[i], font, level.colour()));
    }
    return named;
  }

  /** Where a line meets the right edge of the plot; at its corner where it lies beyond. */
  double levelY(Level level) {
    return plot.y + values.y(values.clamp(level.value()));
  }

  static double tickSpacing(double font) {
    return 3.1 * font;
  }

  private static double valueLabelWidth(ValueScale values, double font) {
    Digits digits = values.tickDigits(tickSpacing(font));
    return values.ticks(tickSpacing(font)).stream()
        .mapToDouble(tick -> Typeface.width(digits.write(tick), font))
        .max()
        .orElse(0);
  }

  private static int brevity(List<Level> levels, ValueScale values, double font, double most) {
    for (int brevity = 0; brevity < 2; brevity++) {
      if (widest(levels, values, font, brevity) <= most) {
        return brevity;
      }
    }
    return 2;
  }

  private static double edgeWidth(List<Level> levels, ValueScale values, double font, int brevity) {
    return Math.max(1.2 * font, widest(levels, values, font, brevity) + 1.1 * font);
  }

  private static double widest(List<Level> levels, ValueScale values, double font, int brevity) {
    return levels.stream()
        .mapToDouble(level -> Typeface.width(level.text(brevity, values), font))
        .max()
        .orElse(0);
  }

  private static List<Label> axisLabels(
      Rectangle plot, ValueScale values, List<TimeScale.Tick> ticks, double font) {
    List<Label> labels = new ArrayList<>();
    Digits digits = values.tickDigits(tickSpacing(font));
    for (double tick : values.ticks(tickSpacing(font))) {
      String text = digits.write(tick);
      double x = plot.x - 0.7 * font - Typeface.width(text, font);
      labels.add(Label.centredOn(text, x, plot.y + values.y(tick), font, Look.MUTED));
    }
    double row = plot.y + plot.height + 1.55 * font;
    String context = "";
    double free = 0;
    for (TimeScale.Tick tick : ticks) {
      labels.add(centred(tick.label(), plot.x + tick.x(), row, font));
      Label second = centred(tick.context(), plot.x + tick.x(), row + 1.2 * font, font);
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
