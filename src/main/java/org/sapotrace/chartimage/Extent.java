package org.sapotrace.chartimage;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;

/** The span of the values met so far. */
final class Extent {

  /** Beyond this a difference of two doubles may overflow. */
  private static final double LARGEST = 1e300;

  private double low = Double.POSITIVE_INFINITY;
  private double high = Double.NEGATIVE_INFINITY;

  void add(@Nullable Double value) {
    if (value != null && Double.isFinite(value)) {
      low = Math.min(low, Math.max(-LARGEST, value));
      high = Math.max(high, Math.min(LARGEST, value));
    }
  }

  /** Room for uncertainty bars, but never so much that they squash the results. */
  void addBars(List<ControlChart.Point> points) {
    double room = (high - low) / 4;
    double least = low >= 0 ? Math.max(0, low - room) : low - room;
    double most = high + room;
    for (ControlChart.Point point : points) {
      if (point.standardUncertainty() != null && Double.isFinite(point.plotted())) {
        double half = 2 * point.standardUncertainty();
        add(Math.max(least, point.plotted() - half));
        add(Math.min(most, point.plotted() + half));
      }
    }
  }

  void addUnlessFar(@Nullable Double value, double leastShare) {
    if (value == null) {
      return;
    }
    // What is level loses nothing by being squashed.
    double span = high > low ? high - low : Math.abs(high);
    double withIt = Math.max(high, value) - Math.min(low, value);
    if (low > high || span >= leastShare * withIt) {
      add(value);
    }
  }

  ValueScale padded(double share, double mark, double height) {
    if (low > high) {
      return new ValueScale(0, 1, height);
    }
    double flat = Math.max(Math.abs(high) / 20, Double.MIN_NORMAL * 1e9);
    double pad = high - low > Math.abs(high) * 1e-12 ? (high - low) * share : flat;
    double bottom = low - pad;
    // Below zero no more room than a mark at zero takes, for what is never negative.
    double least = low >= 0 ? -pad / share * mark : bottom;
    return new ValueScale(Math.max(least, bottom), high + pad, height);
  }
}
