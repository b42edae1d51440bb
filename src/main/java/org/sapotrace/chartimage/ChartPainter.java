package org.sapotrace.chartimage;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.List;
import org.sapotrace.controlchart.ControlChart;

/** Paints a chart with everything that it says onto any surface. */
final class ChartPainter {

  private ChartPainter() {}

  static void paint(Graphics2D g, ControlChart chart, int width, int height) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    g.setColor(Look.PAPER);
    g.fillRect(0, 0, width, height);
    Page page = Page.of(chart, width, height);
    Drawing drawing = new Drawing(chart, page);
    List<Label> labels = new ArrayList<>(page.labels());
    drawing.paint(g).forEach(letter -> letter.drawOnPaper(g));
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
      double left = Math.max(page.namesFrom(), page.plot().x + phase.left() + page.font() / 2);
      double width = Typeface.width(name, page.font());
      if (left + width <= page.plot().x + phase.right()) {
        double baseline = page.plot().y - 1.05 * page.font();
        names.add(new Label(name, left, baseline, page.font(), Look.MUTED));
      }
    }
    return names;
  }
}
