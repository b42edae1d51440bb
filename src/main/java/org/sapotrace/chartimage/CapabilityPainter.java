package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.time.Instant;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.capability.Histogram;

/** Paints a capability: how the results are distributed, against what they must meet. */
final class CapabilityPainter implements Painting {

  private final CapabilityChart chart;

  CapabilityPainter(CapabilityChart chart) {
    this.chart = chart;
  }

  @Override
  public String title() {
    return new CapabilityWording(chart).headline();
  }

  @Override
  public String description() {
    return new CapabilityWording(chart).description();
  }

  @Override
  public Instant asOf() {
    return chart.to();
  }

  @Override
  public void paint(Graphics2D g, int width, int height) {
    Look.paper(g, width, height);
    CapabilityPage page = CapabilityPage.of(chart, width, height);
    Plot plot = new Plot(page.plot().width, page.plot().height, (int) Math.ceil(4 * page.font()));
    grid(plot, page);
    bars(plot, page);
    axis(plot, page);
    guides(plot, page);
    plot.paint(g, page.plot().x, page.plot().y);
    curve(g, page);
    page.labels().forEach(label -> label.draw(g));
  }

  private static void grid(Plot plot, CapabilityPage page) {
    Segments grid = new Segments();
    for (double tick : page.counts().ticks(page.countSpacing())) {
      grid.add(0, page.counts().y(tick), page.plot().width, page.counts().y(tick));
    }
    draw(plot, grid, Look.GRID, page.unit());
  }

  private static void axis(Plot plot, CapabilityPage page) {
    int foot = page.plot().height;
    Segments axis = new Segments();
    axis.add(0, foot, page.plot().width, foot);
    page.ticks().forEach(tick -> axis.add(tick.x(), foot, tick.x(), foot + 4 * page.unit()));
    draw(plot, axis, Look.MUTED, 0.8 * page.unit());
  }

  /** A bar for each class, with a little paper between. */
  private static void bars(Plot plot, CapabilityPage page) {
    Histogram histogram = page.histogram();
    ValueScale values = page.values();
    Segments bars = new Segments();
    for (int i = 0; i < histogram.counts().size(); i++) {
      if (histogram.counts().get(i) > 0) {
        double x = values.along(histogram.start() + (i + 0.5) * histogram.width());
        bars.add(x, page.counts().y(histogram.counts().get(i)), x, page.plot().height);
      }
    }
    double wide = histogram.width() / (values.top() - values.bottom()) * page.plot().width;
    double apart = wide > 8 * page.unit() ? page.unit() : 0;
    plot.line(
        bars.xs(),
        bars.ys(),
        Look.BAR,
        new BasicStroke((float) Math.max(1, wide - apart), BasicStroke.CAP_BUTT, 1));
  }

  private void curve(Graphics2D g, CapabilityPage page) {
    Path2D curve = new Path2D.Double();
    for (int x = 0; x <= page.plot().width; x += 2) {
      double y = page.plot().y + page.curve(chart, page.values().at(x));
      if (x == 0) {
        curve.moveTo(page.plot().x, y);
      } else {
        curve.lineTo(page.plot().x + x, y);
      }
    }
    g.setColor(Look.RESULT);
    g.setStroke(Look.solid(1.6 * page.unit()));
    // Else Java moves each piece onto whole pixels, and the curve trembles.
    g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
    g.draw(curve);
  }

  private static void guides(Plot plot, CapabilityPage page) {
    for (int i = 0; i < page.guides().size(); i++) {
      Guide guide = page.guides().get(i);
      if (page.values().shows(guide.value())) {
        Flags.Flag flag = page.names().get(i);
        double top = flag.text().isEmpty() ? 0 : -Notes.reach(flag, page.font());
        plot.line(
            new double[] {flag.x(), flag.x()},
            new double[] {page.plot().height, top},
            guide.colour(),
            guide.stroke(page.unit()));
      }
    }
  }

  private static void draw(Plot plot, Segments lines, Color colour, double width) {
    plot.line(lines.xs(), lines.ys(), colour, Look.solid(width));
  }
}
