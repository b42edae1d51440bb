package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;

/** Paints a chart with everything that it says onto any surface. */
final class ChartPainter implements Painting {

  /**
   * A height for asking what a scale shows and how it is written, which hardly depends on it, px.
   */
  static final double ANY_HEIGHT = 300;

  private final ControlChart chart;
  private final Axis axis;

  ChartPainter(ControlChart chart, Axis axis) {
    this.chart = chart;
    this.axis = axis;
  }

  @Override
  public String title() {
    return new Wording(chart).headline();
  }

  @Override
  public String description() {
    Digits digits = ValueScale.of(chart, ANY_HEIGHT, 1).digits();
    return new Wording(chart)
        .description(Level.of(chart).stream().map(level -> level.text(0, digits)).toList());
  }

  @Override
  public @Nullable Instant asOf() {
    int n = chart.points().size();
    return n == 0 ? null : chart.points().get(n - 1).at();
  }

  @Override
  public void paint(Graphics2D g, int width, int height) {
    Look.paper(g, width, height);
    Page page = Page.of(chart, axis, width, height);
    Notes notes = Notes.of(chart, page);
    Drawing drawing = new Drawing(chart, page, notes);
    List<Label> labels = new ArrayList<>(page.labels());
    drawing.paint(g).forEach(letter -> letter.drawOnPaper(g));
    labels.addAll(notes.labels(page));
    labels.addAll(phaseNames(drawing.phases(), page));
    List<Label> edge = page.edgeLabels();
    labels.addAll(edge);
    leaders(g, page, edge);
    labels.forEach(label -> label.draw(g));
  }

  /** Thin lines from the ends of the lines to their names. */
  private static void leaders(Graphics2D g, Page page, List<Label> edge) {
    g.setStroke(Look.solid(0.8 * page.unit()));
    double from = page.plot().getMaxX() + 0.15 * page.font();
    for (int i = 0; i < edge.size(); i++) {
      Level level = page.levels().get(i);
      double middle = edge.get(i).baseline() - 0.36 * page.font();
      if (page.values().shows(level.value())) {
        g.setColor(level.colour());
        g.draw(
            new Line2D.Double(
                from, page.levelY(level), edge.get(i).x() - 0.2 * page.font(), middle));
      }
    }
  }

  /** Names each phase by the revision of its limits, where there are several and room is. */
  private static List<Label> phaseNames(List<Phase> phases, Page page) {
    List<Label> names = new ArrayList<>();
    for (Phase phase : phases.size() > 1 ? phases : List.<Phase>of()) {
      String name = phase.revision() == null ? "no limits" : "revision " + phase.revision();
      double left = Math.max(page.names().getX(), page.plot().x + phase.left() + page.font() / 2);
      double width = Typeface.width(name, page.font());
      if (left + width <= page.plot().x + phase.right()) {
        names.add(new Label(name, left, page.names().getY(), page.font(), Look.MUTED));
      }
    }
    return names;
  }
}
