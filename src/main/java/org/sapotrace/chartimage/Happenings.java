package org.sapotrace.chartimage;

import java.awt.Color;
import java.util.Arrays;
import org.sapotrace.controlchart.ControlChart;

/** Draws when events happened and changes began, and the results that were withdrawn. */
final class Happenings {

  private final ControlChart chart;
  private final Page page;
  private final Notes notes;
  private final Plot plot;
  private final FreeSpace space;

  Happenings(ControlChart chart, Page page, Notes notes, Plot plot, FreeSpace space) {
    this.chart = chart;
    this.page = page;
    this.notes = notes;
    this.plot = plot;
    this.space = space;
  }

  /** Lines that lie behind the results. */
  void draw() {
    if (!page.across().isEmpty()) {
      events();
      brackets();
      changes();
    }
  }

  /** A flag on the axis for each event, and a faint line up to the results. */
  private void events() {
    Segments up = new Segments();
    Segments poles = new Segments();
    double axis = page.plot().height + page.foot();
    for (Flags.Flag flag : notes.events()) {
      double top = axis - Notes.reach(flag, page.font());
      up.add(flag.x(), 0, flag.x(), top);
      poles.add(flag.x(), top, flag.x(), axis);
    }
    draw(up, Look.GRID, 1);
    draw(poles, Look.INK, 1);
    double[] xs = notes.events().stream().mapToDouble(Flags.Flag::x).toArray();
    double[] tops =
        notes.events().stream().mapToDouble(f -> axis - Notes.reach(f, page.font())).toArray();
    if (xs.length > 0) {
      plot.marks(xs, tops, Look.INK, Marks.pennant(0.55 * page.font()));
    }
  }

  /** Where each change may have begun. */
  private void brackets() {
    Segments brackets = new Segments();
    double y = -4 * page.unit();
    for (ControlChart.Change change : chart.changes()) {
      if (change.earliest() != null && change.latest() != null) {
        double from = page.across().x(change.earliest());
        double to = page.across().x(change.latest());
        if (to - from > 2) {
          brackets.addPath(new double[] {from, from, to, to}, new double[] {0, y, y, 0});
        }
      }
    }
    draw(brackets, Look.FAINT_SIGNAL, 1.6);
  }

  private void changes() {
    Segments lines = new Segments();
    for (int i = 0; i < notes.changes().size(); i++) {
      Flags.Flag flag = notes.changes().get(i);
      if (!Notes.isBefore(chart, chart.changes().get(i).at())) {
        double top = flag.text().isEmpty() ? 0 : -Notes.reach(flag, page.font());
        lines.add(flag.x(), top, flag.x(), page.plot().height);
      }
    }
    draw(lines, Look.SIGNAL, 0.9);
    lines.occupy(space);
  }

  private void draw(Segments lines, Color colour, double width) {
    plot.line(lines.xs(), lines.ys(), colour, Look.solid(width * page.unit()));
  }

  /** Hollow circles, so that nobody takes a withdrawn result for one that counts. */
  void withdrawn(double radius) {
    double[][] places =
        chart.withdrawn().stream()
            .filter(result -> !page.across().isEmpty() && page.values().shows(result.value()))
            .map(r -> new double[] {page.across().x(r.at()), page.values().y(r.value())})
            .toArray(double[][]::new);
    if (places.length > 0) {
      double[] xs = Arrays.stream(places).mapToDouble(place -> place[0]).toArray();
      double[] ys = Arrays.stream(places).mapToDouble(place -> place[1]).toArray();
      plot.marks(xs, ys, Look.MUTED, Marks.ring(radius, 1.2 * page.unit()));
    }
    for (double[] place : places) {
      space.box(Marks.around(place[0], place[1], radius), FreeSpace.MARK);
    }
  }
}
