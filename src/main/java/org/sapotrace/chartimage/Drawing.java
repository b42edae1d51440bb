package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.function.BiPredicate;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;

/** What stands in the plot: grid, limits, results and their letters, in px from its top left. */
final class Drawing {

  private final ControlChart chart;
  private final Page page;
  private final Notes notes;
  private final double unit;
  private final Plot plot;
  private final FreeSpace space;
  private final List<Phase> phases;
  private final List<Trace> traces;

  Drawing(ControlChart chart, Page page, Notes notes) {
    this.chart = chart;
    this.page = page;
    this.notes = notes;
    unit = page.unit();
    int height = page.plot().height + page.foot();
    plot = new Plot(page.plot().width, height, (int) Math.ceil(4 * page.font()));
    space = new FreeSpace(page.plot().width, page.plot().height);
    phases = Phase.of(chart.points(), page.across(), page.plot().width, 8 * unit);
    traces =
        Statistic.of(chart).stream()
            .flatMap(
                statistic ->
                    phases.stream().map(phase -> new Trace(phase, statistic, page.values())))
            .toList();
  }

  List<Phase> phases() {
    return phases;
  }

  /** Paints the plot; returns the letters that belong into it, in px of the picture. */
  List<Label> paint(Graphics2D g) {
    axes();
    Happenings happenings = new Happenings(chart, page, notes, plot, space);
    happenings.draw();
    if (Page.showsBars(chart, page.plot().width)) {
      bars();
    }
    line();
    new LimitLines(chart, page, phases, plot, space).draw();
    happenings.withdrawn(radius() + 0.4 * unit);
    marks();
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
    draw(grid, Look.GRID, Look.solid(unit));
    Segments axis = new Segments();
    int foot = height + page.foot();
    axis.add(0, foot, width, foot);
    page.ticks().forEach(tick -> axis.add(tick.x(), foot, tick.x(), foot + 4 * unit));
    for (int i = 1; i < phases.size(); i++) {
      double border = (phases.get(i - 1).right() + phases.get(i).left()) / 2;
      axis.add(border, -6 * unit, border, height);
    }
    draw(axis, Look.MUTED, Look.solid(0.8 * unit));
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
    draw(bars, Look.UNCERTAINTY, new BasicStroke((float) (2 * unit), BasicStroke.CAP_BUTT, 1));
  }

  /** Pixels from one result to the next, on average. */
  private double spacing() {
    return page.plot().width / (double) Math.max(1, chart.points().size());
  }

  private void line() {
    Segments lines = new Segments();
    for (Trace trace : traces) {
      lines.addPath(trace.lineXs, trace.lineYs);
    }
    draw(lines, colour(), Look.solid(spacing() < 2 ? 0.8 * unit : 1.1 * unit));
  }

  private void marks() {
    double radius = radius();
    if (spacing() >= 2) {
      marks((line, point) -> !line.signals(point), radius, colour(), Marks.circle(radius));
    }
    if (!chart.kind().gathers()) {
      Plot.Mark tick = Marks.tick(radius, 1.2 * unit);
      marks((line, point) -> point.belowDetection(), radius, Look.RESULT, tick);
    }
    marks(Statistic::signals, diamondRadius(), Look.SIGNAL, Marks.diamond(diamondRadius()));
  }

  /** That of a circle, the smaller the more there are. */
  private double radius() {
    double spacing = spacing();
    return spacing >= 7 ? 2.8 * unit : spacing >= 4 ? 2 * unit : 1.4 * unit;
  }

  private Color colour() {
    return chart.kind().gathers() ? Look.DRIFT : Look.RESULT;
  }

  private double diamondRadius() {
    return 4.8 * unit;
  }

  private void marks(
      BiPredicate<Statistic, Point> which, double radius, Color colour, Plot.Mark mark) {
    List<double[]> places = places(which);
    if (places.isEmpty()) {
      return;
    }
    double[] xs = places.stream().mapToDouble(place -> place[0]).toArray();
    double[] ys = places.stream().mapToDouble(place -> place[1]).toArray();
    plot.marks(xs, ys, colour, mark);
    for (double[] place : places) {
      space.box(Marks.around(place[0], place[1], radius), FreeSpace.MARK);
    }
  }

  /** Where results lie; of those too close to be told apart only the first. */
  private List<double[]> places(BiPredicate<Statistic, Point> which) {
    List<double[]> places = new ArrayList<>();
    double cell = spacing() < 1 ? 2 * unit : 1;
    Set<Long> taken = new HashSet<>();
    for (Trace trace : traces) {
      for (int i = 0; i < trace.xs.length; i++) {
        long pixel = Math.round(trace.xs[i] / cell) * 10_000 + Math.round(trace.ys[i] / cell);
        if (which.test(trace.statistic, trace.points.get(i))
            && Double.isFinite(trace.ys[i])
            && taken.add(pixel)) {
          places.add(new double[] {trace.xs[i], trace.ys[i]});
        }
      }
    }
    return places;
  }

  /** The results that get letters: those whose signals are not the same as just before. */
  private List<SignalLetters.Signal> signalled() {
    List<SignalLetters.Signal> signals = new ArrayList<>();
    String before = "";
    for (Trace trace : traces) {
      for (int i = 0; i < trace.xs.length; i++) {
        Point point = trace.points.get(i);
        String letters = trace.statistic.letters(point);
        if (!letters.isEmpty() && !letters.equals(before) && Double.isFinite(trace.ys[i])) {
          boolean above = point.centre() == null || trace.statistic.of(point) >= point.centre();
          Rectangle2D mark = Marks.around(trace.xs[i], trace.ys[i], diamondRadius());
          signals.add(new SignalLetters.Signal(letters, mark, above));
        }
        before = letters;
      }
    }
    return signals;
  }

  private void draw(Segments lines, Color colour, BasicStroke stroke) {
    plot.line(lines.xs(), lines.ys(), colour, stroke);
    if (!colour.equals(Look.GRID)) {
      lines.occupy(space);
    }
  }
}
