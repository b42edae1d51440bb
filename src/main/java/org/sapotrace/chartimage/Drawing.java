package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;

/** What stands in the plot: grid, limits, results and their letters, in px from its top left. */
final class Drawing {

  private final ControlChart chart;
  private final Page page;
  private final double unit;
  private final Plot plot;
  private final FreeSpace space;
  private final List<Phase> phases;
  private final List<Trace> traces;

  /** The results of one phase that are drawn. */
  private static final class Trace {
    final List<Point> points;
    final double[] xs;
    final double[] ys;

    Trace(Phase phase, ValueScale values) {
      double[] allXs = phase.xs();
      double[] allYs = phase.points().stream().mapToDouble(p -> y(p, values)).toArray();
      int[] kept = Thinning.indices(allXs, allYs, i -> !phase.points().get(i).signals().isEmpty());
      points = Arrays.stream(kept).mapToObj(phase.points()::get).toList();
      xs = Thinning.pick(allXs, kept);
      ys = Thinning.pick(allYs, kept);
    }

    private static double y(Point point, ValueScale values) {
      return Double.isFinite(point.plotted()) ? values.y(point.plotted()) : Double.NaN;
    }
  }

  Drawing(ControlChart chart, Page page) {
    this.chart = chart;
    this.page = page;
    unit = page.unit();
    plot = new Plot(page.plot().width, page.plot().height, (int) Math.ceil(8 * unit));
    space = new FreeSpace(page.plot().width, page.plot().height);
    phases = Phase.of(chart.points(), page.time(), 8 * unit);
    traces = phases.stream().map(phase -> new Trace(phase, page.values())).toList();
  }

  List<Phase> phases() {
    return phases;
  }

  /** Paints the plot; returns the letters that belong into it, in px of the picture. */
  List<Label> paint(Graphics2D g) {
    axes();
    if (Page.showsBars(chart, page.plot().width)) {
      bars();
    }
    specification();
    limits(Point::upper, Look.LIMIT, Look.dashed(unit));
    limits(Point::lower, Look.LIMIT, Look.dashed(unit));
    limits(Point::centre, Look.MUTED, Look.solid(unit));
    results();
    plot.paint(g, page.plot().x, page.plot().y);
    return new SignalLetters(space, page).place(signalled());
  }

  private void axes() {
    int width = page.plot().width;
    int height = page.plot().height;
    Segments grid = new Segments();
    for (double tick : page.values().ticks(Page.tickSpacing(page.font()))) {
      grid.add(0, page.values().y(tick), width, page.values().y(tick));
    }
    grid.draw(Look.GRID, Look.solid(unit));
    Segments axis = new Segments();
    axis.add(0, height, width, height);
    page.ticks().forEach(tick -> axis.add(tick.x(), height, tick.x(), height + 4 * unit));
    for (int i = 1; i < phases.size(); i++) {
      double border = (phases.get(i - 1).right() + phases.get(i).left()) / 2;
      axis.add(border, -6 * unit, border, height);
    }
    axis.draw(Look.MUTED, Look.solid(0.8 * unit));
  }

  private void bars() {
    Segments bars = new Segments();
    for (Trace trace : traces) {
      for (int i = 0; i < trace.xs.length; i++) {
        Point point = trace.points.get(i);
        if (point.standardUncertainty() != null && Double.isFinite(point.plotted())) {
          double half = 2 * point.standardUncertainty();
          double high = page.values().clamp(point.plotted() + half);
          double low = page.values().clamp(point.plotted() - half);
          bars.add(trace.xs[i], page.values().y(high), trace.xs[i], page.values().y(low));
        }
      }
    }
    bars.draw(Look.UNCERTAINTY, new BasicStroke((float) (2 * unit), BasicStroke.CAP_BUTT, 1));
  }

  private void specification() {
    for (Level level : page.levels()) {
      if (level.given() && page.values().shows(level.value())) {
        double y = page.values().y(level.value());
        Segments line = new Segments();
        line.add(0, y, page.plot().width, y);
        line.draw(level.colour(), Look.dotted(unit));
      }
    }
  }

  private void limits(Function<Point, @Nullable Double> limit, Color colour, BasicStroke stroke) {
    Segments lines = new Segments();
    for (Phase phase : phases) {
      for (Phase.Step step : phase.steps(limit)) {
        double y = page.values().y(step.value());
        lines.add(step.from(), y, step.to(), y);
      }
    }
    lines.draw(colour, stroke);
  }

  private void results() {
    int n = chart.points().size();
    double spacing = page.plot().width / (double) Math.max(1, n);
    Segments lines = new Segments();
    for (Trace trace : traces) {
      lines.addPath(trace.xs, trace.ys);
    }
    lines.draw(Look.RESULT, Look.solid(spacing < 2 ? 0.8 * unit : 1.1 * unit));
    double radius = spacing >= 7 ? 2.8 * unit : spacing >= 4 ? 2 * unit : 1.4 * unit;
    if (spacing >= 2) {
      marks(point -> point.signals().isEmpty(), radius, Look.RESULT, circle(radius));
    }
    marks(Point::belowDetection, radius, Look.RESULT, tick(radius, unit));
    marks(point -> !point.signals().isEmpty(), diamondRadius(), Look.SIGNAL, diamond());
  }

  private double diamondRadius() {
    return 4.8 * unit;
  }

  private void marks(Predicate<Point> which, double radius, Color colour, Plot.Mark mark) {
    List<double[]> places = places(which);
    if (places.isEmpty()) {
      return;
    }
    double[] xs = places.stream().mapToDouble(place -> place[0]).toArray();
    double[] ys = places.stream().mapToDouble(place -> place[1]).toArray();
    plot.marks(xs, ys, colour, mark);
    for (double[] place : places) {
      space.box(around(place[0], place[1], radius), FreeSpace.MARK);
    }
  }

  /** Where results lie, those of one pixel once. */
  private List<double[]> places(Predicate<Point> which) {
    List<double[]> places = new ArrayList<>();
    Set<Long> taken = new HashSet<>();
    for (Trace trace : traces) {
      for (int i = 0; i < trace.xs.length; i++) {
        long pixel = Math.round(trace.xs[i]) * 10_000 + Math.round(trace.ys[i]);
        if (which.test(trace.points.get(i)) && Double.isFinite(trace.ys[i]) && taken.add(pixel)) {
          places.add(new double[] {trace.xs[i], trace.ys[i]});
        }
      }
    }
    return places;
  }

  private List<SignalLetters.Signal> signalled() {
    List<SignalLetters.Signal> signals = new ArrayList<>();
    String before = "";
    for (Trace trace : traces) {
      for (int i = 0; i < trace.xs.length; i++) {
        Point point = trace.points.get(i);
        String letters = Wording.letters(point);
        if (!letters.isEmpty() && Double.isFinite(trace.ys[i])) {
          boolean above = point.centre() == null || point.plotted() >= point.centre();
          Rectangle2D mark = around(trace.xs[i], trace.ys[i], diamondRadius());
          signals.add(new SignalLetters.Signal(letters, mark, above, !letters.equals(before)));
        }
        before = letters;
      }
    }
    return signals;
  }

  private static Rectangle2D around(double x, double y, double radius) {
    return new Rectangle2D.Double(x - radius, y - radius, 2 * radius, 2 * radius);
  }

  private static Plot.Mark circle(double radius) {
    return (g, x, y) ->
        g.fill(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
  }

  private static Plot.Mark tick(double radius, double unit) {
    return (g, x, y) ->
        g.fill(
            new Rectangle2D.Double(
                x - 2 * radius, y + radius + unit, 4 * radius, Math.max(1, 1.2 * unit)));
  }

  private Plot.Mark diamond() {
    double radius = diamondRadius();
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

  /** Lines of one look, kept apart by breaks, and known to whatever seeks free space. */
  private final class Segments {
    private final List<double[]> xs = new ArrayList<>();
    private final List<double[]> ys = new ArrayList<>();

    void add(double x1, double y1, double x2, double y2) {
      addPath(new double[] {x1, x2}, new double[] {y1, y2});
    }

    void addPath(double[] px, double[] py) {
      if (px.length > 0) {
        xs.add(px);
        ys.add(py);
        xs.add(new double[] {px[px.length - 1]});
        ys.add(new double[] {Double.NaN});
      }
    }

    void draw(Color colour, BasicStroke stroke) {
      double[] allX = xs.stream().flatMapToDouble(Arrays::stream).toArray();
      double[] allY = ys.stream().flatMapToDouble(Arrays::stream).toArray();
      if (allX.length == 0) {
        return;
      }
      plot.line(allX, allY, colour, stroke);
      for (int i = 1; i < allX.length && !colour.equals(Look.GRID); i++) {
        if (Double.isFinite(allY[i - 1]) && Double.isFinite(allY[i])) {
          space.line(allX[i - 1], allY[i - 1], allX[i], allY[i]);
        }
      }
    }
  }
}
