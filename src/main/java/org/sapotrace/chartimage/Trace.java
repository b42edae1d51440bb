package org.sapotrace.chartimage;

import java.util.Arrays;
import java.util.List;
import org.sapotrace.controlchart.ControlChart.Point;

/** What is drawn of the results of one phase, in px from the top left of the plot. */
final class Trace {

  final Statistic statistic;
  final List<Point> points;
  final double[] xs;

  /** NaN where there is nothing to draw. */
  final double[] ys;

  /** The line through the results. */
  final double[] lineXs;

  final double[] lineYs;

  Trace(Phase phase, Statistic statistic, ValueScale values) {
    this.statistic = statistic;
    double[] allXs = phase.xs();
    double[] allYs = phase.points().stream().mapToDouble(p -> y(statistic.of(p), values)).toArray();
    int[] kept = Thinning.indices(allXs, allYs, i -> statistic.signals(phase.points().get(i)));
    points = Arrays.stream(kept).mapToObj(phase.points()::get).toList();
    xs = Thinning.pick(allXs, kept);
    ys = Thinning.pick(allYs, kept);
    // The line covers each column from lowest to highest, and so every result that signals.
    int[] line = Thinning.indices(allXs, allYs, i -> false);
    lineXs = Thinning.pick(allXs, line);
    lineYs = Thinning.pick(allYs, line);
  }

  private static double y(double value, ValueScale values) {
    return Double.isFinite(value) ? values.y(value) : Double.NaN;
  }
}
