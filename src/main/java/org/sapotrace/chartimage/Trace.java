package org.sapotrace.chartimage;

import java.util.Arrays;
import java.util.List;
import org.sapotrace.controlchart.ControlChart.Point;

/** The results of one phase that are drawn, in px from the top left of the plot. */
final class Trace {

  final List<Point> points;
  final double[] xs;

  /** NaN where there is nothing to draw. */
  final double[] ys;

  /** The line through the results. */
  final double[] lineXs;

  final double[] lineYs;

  Trace(Phase phase, ValueScale values) {
    double[] allXs = phase.xs();
    double[] allYs = phase.points().stream().mapToDouble(p -> y(p, values)).toArray();
    int[] kept = Thinning.indices(allXs, allYs, i -> !phase.points().get(i).signals().isEmpty());
    points = Arrays.stream(kept).mapToObj(phase.points()::get).toList();
    xs = Thinning.pick(allXs, kept);
    ys = Thinning.pick(allYs, kept);
    // The line covers each column from lowest to highest, and so every result that signals.
    int[] line = Thinning.indices(allXs, allYs, i -> false);
    lineXs = Thinning.pick(allXs, line);
    lineYs = Thinning.pick(allYs, line);
  }

  private static double y(Point point, ValueScale values) {
    return Double.isFinite(point.plotted()) ? values.y(point.plotted()) : Double.NaN;
  }
}
