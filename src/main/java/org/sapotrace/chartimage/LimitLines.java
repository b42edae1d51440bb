package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.time.Instant;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.ControlChart.Specification;

/** Draws the lines by which results are judged. */
final class LimitLines {

  private final ControlChart chart;
  private final Page page;
  private final List<Phase> phases;
  private final Plot plot;
  private final FreeSpace space;

  LimitLines(ControlChart chart, Page page, List<Phase> phases, Plot plot, FreeSpace space) {
    this.chart = chart;
    this.page = page;
    this.phases = phases;
    this.plot = plot;
    this.space = space;
  }

  void draw() {
    specification();
    double unit = page.unit();
    if (chart.kind() == ControlChart.Kind.EWMA) {
      // They change at every result, and a dash that begins anew at each would be a solid line.
      stairs(Point::upper);
      stairs(Point::lower);
    } else {
      levels(Point::upper, Look.LIMIT, Look.dashed(unit));
      levels(Point::lower, Look.LIMIT, Look.dashed(unit));
    }
    levels(Point::centre, Look.MUTED, Look.solid(unit));
  }

  private void specification() {
    Specification specification = chart.specification();
    Instant since = specification == null ? null : specification.since();
    double from = since == null ? 0 : page.across().x(since);
    for (Level level : page.levels()) {
      if (level.dotted() && page.values().shows(level.value())) {
        double y = page.values().y(level.value());
        Segments line = new Segments();
        line.add(from, y, page.plot().width, y);
        draw(line, level.colour(), Look.dotted(page.unit()));
        space.level(from, page.plot().width, y);
      }
    }
  }

  private void levels(Function<Point, @Nullable Double> limit, Color colour, BasicStroke stroke) {
    Segments lines = new Segments();
    for (Phase phase : phases) {
      for (Phase.Step step : phase.steps(limit)) {
        double y = page.values().y(step.value());
        lines.add(step.from(), y, step.to(), y);
        space.level(step.from(), step.to(), y);
      }
    }
    draw(lines, colour, stroke);
  }

  /** One dashed line up or down the steps of a limit. */
  private void stairs(Function<Point, @Nullable Double> limit) {
    Segments dashes = new Segments();
    for (Phase phase : phases) {
      Dashes line = new Dashes(dashes, Look.DASH * page.unit(), Look.GAP * page.unit());
      for (Phase.Step step : phase.steps(limit)) {
        double y = page.values().y(step.value());
        line.to(step.from(), y);
        line.to(step.to(), y);
        space.level(step.from(), step.to(), y);
      }
    }
    draw(dashes, Look.LIMIT, Look.dash(page.unit()));
  }

  private void draw(Segments lines, Color colour, BasicStroke stroke) {
    plot.line(lines.xs(), lines.ys(), colour, stroke);
    lines.occupy(space);
  }
}
