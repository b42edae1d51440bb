package org.sapotrace.chartimage;

import java.awt.Rectangle;
import java.awt.geom.Point2D;
import java.util.ArrayList;
import java.util.List;
import org.sapotrace.controlchart.ControlChart;

/**
 * Where everything on a picture lies: the headline and the circumstances above the plot, the axes
 * beside it, the explanations under it.
 *
 * @param font size of the type in the plot, px
 * @param plot the rectangle that the scales fill, px
 * @param reach from the left of the plot to the right margin of the picture, px
 * @param strips what stands above and below the plot
 * @param values the vertical axis
 * @param across the horizontal axis
 * @param levels the lines to be named at the right edge
 * @param labels every text outside the plot but notes and the names of lines and phases
 * @param names where the names of phases begin at the earliest, above the plot
 * @param brevity which of a line's names is used
 */
record Page(
    double font,
    Rectangle plot,
    double reach,
    Strips strips,
    ValueScale values,
    Abscissa across,
    List<Level> levels,
    List<Label> labels,
    Point2D names,
    int brevity) {

  /** Height of a line of text over the size of its type. */
  static final double LINE = 1.3;

  /** The greatest share of the width that the names of the lines may take. */
  private static final double EDGE_SHARE = 0.22;

  /**
   * The room of notes.
   *
   * @param changes rows above the plot
   * @param events rows between the plot and its horizontal axis
   * @param wordless events whose words stand under the picture, as no row had room for them
   */
  record Strips(int changes, int events, List<String> wordless) {}

  static Page of(ControlChart chart, Axis axis, int width, int height) {
    Page bare = of(chart, axis, width, height, new Strips(0, 0, List.of()));
    // What notes need depends on where the plot lies, and that on what they need: once each.
    int most = height < 300 ? 1 : height < 500 ? 2 : 3;
    return of(chart, axis, width, height, Notes.of(chart, bare, most, most).strips(chart));
  }

  private static Page of(ControlChart chart, Axis axis, int width, int height, Strips strips) {
    double font = typeSize(width, height);
    double margin = Math.round(1.1 * font);
    List<String> explanations = new Explanations(chart).pieces(showsBars(chart, width), axis);
    explanations.addAll(strips.wordless);
    List<Label> labels = new ArrayList<>();
    Headings.Between between =
        new Headings(font, margin, width - 2 * margin)
            .around(new Wording(chart), explanations, height, labels);
    int top = (int) Math.round(between.row() + font * (1.05 + Notes.height(strips.changes)));
    int axisAt = (int) Math.round(between.foot() - font * 3.4);
    int bottom = axisAt - (int) Math.round(font * Notes.height(strips.events));

    ValueScale values = ValueScale.of(chart, bottom - top, font / 11);
    List<Level> levels = Level.of(chart);
    int brevity = brevity(levels, values, font, width * EDGE_SHARE);
    int left = (int) Math.ceil(margin + AxisLabels.width(values, font) + 0.7 * font);
    int right = (int) Math.floor(width - margin - edgeWidth(levels, values, font, brevity));
    Rectangle plot = new Rectangle(left, top, right - left, bottom - top);
    Abscissa across = axis.over(chart, plot.width, 10 * font / 11);
    labels.addAll(AxisLabels.beside(plot, values, tickSpacing(font), font));
    labels.addAll(AxisLabels.under(left, axisAt, across.ticks(AxisLabels.apart(font)), font));
    Point2D names = new Point2D.Double(between.beside(), between.row());
    return new Page(
        font, plot, width - margin - left, strips, values, across, levels, labels, names, brevity);
  }

  /** From the foot of the plot to its horizontal axis, px. */
  int foot() {
    return (int) Math.round(font * Notes.height(strips.events));
  }

  List<Abscissa.Tick> ticks() {
    return across.ticks(AxisLabels.apart(font));
  }

  /** The size of the type on a picture of that size, px. */
  static double typeSize(int width, int height) {
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
    // Notes may reach over to the right of the plot, and keep as far off as other labels do.
    double top = plot.y + (strips.changes == 0 ? 0 : font / 2);
    double bottom = plot.y + plot.height - (strips.events == 0 ? font / 2 : font);
    double[] middles = EdgeLabels.spread(targets, line, top, bottom);
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
}
