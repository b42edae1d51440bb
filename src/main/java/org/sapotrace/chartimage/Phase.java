package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart.Point;

/**
 * A run of results judged by one revision of the limits.
 *
 * @param revision of the limits; null while there are none
 * @param points in order of time, at least one
 * @param across the scale on which the points lie
 * @param left where the phase begins, px
 * @param right where it ends, px
 */
record Phase(
    @Nullable Integer revision, List<Point> points, Abscissa across, double left, double right) {

  /** A level of one limit that holds over a stretch of a phase. */
  record Step(double from, double to, double value) {}

  /** Splits results into phases with a gap between them. */
  static List<Phase> of(List<Point> points, Abscissa across, double width, double gap) {
    List<Phase> phases = new ArrayList<>();
    double left = 0;
    int start = 0;
    for (int i = 1; i <= points.size(); i++) {
      boolean ends = i == points.size();
      if (!ends && sameRevision(points.get(i - 1), points.get(i))) {
        continue;
      }
      double border = ends ? width : halfway(points, i, across);
      double right = ends ? border : border - gap / 2;
      phases.add(
          new Phase(
              points.get(start).limitsRevision(),
              points.subList(start, i),
              across,
              left,
              Math.max(left, right)));
      left = border + gap / 2;
      start = i;
    }
    return phases;
  }

  /** Where each point lies, px from the left of the plot. */
  double[] xs() {
    return points.stream().mapToDouble(across::x).toArray();
  }

  private static double halfway(List<Point> points, int next, Abscissa across) {
    return (across.x(points.get(next - 1)) + across.x(points.get(next))) / 2;
  }

  private static boolean sameRevision(Point one, Point next) {
    return Objects.equals(one.limitsRevision(), next.limitsRevision());
  }

  /** One limit as drawn, changing halfway between two results. */
  List<Step> steps(Function<Point, @Nullable Double> limit) {
    List<Step> steps = new ArrayList<>();
    double from = left;
    for (int i = 0; i < points.size(); i++) {
      Double value = limit.apply(points.get(i));
      boolean ends = i == points.size() - 1;
      if (!ends && Objects.equals(value, limit.apply(points.get(i + 1)))) {
        continue;
      }
      double to = ends ? right : halfway(points, i + 1, across);
      if (value != null && Double.isFinite(value)) {
        steps.add(new Step(from, to, value));
      }
      from = to;
    }
    return steps;
  }
}
