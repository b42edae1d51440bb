package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;

/**
 * The vertical axis: which values the plot spans and where a value lies.
 *
 * @param bottom the value at the foot of the plot
 * @param top the value at its head, above the bottom
 * @param height of the plot, px
 */
record ValueScale(double bottom, double top, double height) {

  /** The least share of the plot that results and limits keep beside a far specification. */
  private static final double LEAST_SHARE = 0.25;

  /** The same beside a withdrawn result, which is often a slip of the pen. */
  private static final double LEAST_SHARE_OF_WITHDRAWN = 0.6;

  /** Beyond this a difference of two doubles may overflow. */
  private static final double LARGEST = 1e300;

  /**
   * A scale on which the results, their limits and, unless it is far away, the specification fit.
   */
  static ValueScale of(ControlChart chart, double height, double unit) {
    Extent extent = new Extent();
    for (ControlChart.Point point : chart.points()) {
      extent.add(point.plotted());
      extent.add(point.below());
      extent.add(point.centre());
      extent.add(point.upper());
      extent.add(point.lower());
    }
    chart
        .withdrawn()
        .forEach(result -> extent.addUnlessFar(result.value(), LEAST_SHARE_OF_WITHDRAWN));
    extent.addBars(chart.points());
    if (chart.specification() != null) {
      extent.addUnlessFar(chart.specification().lower(), LEAST_SHARE);
      extent.addUnlessFar(chart.specification().upper(), LEAST_SHARE);
    }
    double mark = Math.min(0.25, 9 * unit / height);
    return extent.padded(Math.max(0.05, mark), mark, height);
  }

  /** The distance of a value from the top of the plot, px. */
  double y(double value) {
    return height * (top - value) / (top - bottom);
  }

  boolean shows(double value) {
    return value >= bottom && value <= top;
  }

  double clamp(double value) {
    return Math.max(bottom, Math.min(top, value));
  }

  Digits digits() {
    return Digits.telling(Math.max(Math.abs(bottom), Math.abs(top)), (top - bottom) / 100);
  }

  /** Round values in even steps, at least a given number of pixels apart. */
  List<Double> ticks(double spacing) {
    double step = step(spacing);
    List<Double> ticks = new ArrayList<>();
    double first = Math.ceil(bottom / step - 1e-9);
    for (int i = 0; (first + i) * step <= top + step * 1e-9 && i < 100; i++) {
      ticks.add((first + i) * step);
    }
    return ticks;
  }

  Digits tickDigits(double spacing) {
    return Digits.telling(Math.max(Math.abs(bottom), Math.abs(top)), step(spacing));
  }

  private double step(double spacing) {
    double least = (top - bottom) * Math.min(1, spacing / height);
    double power = Math.pow(10, Math.floor(Math.log10(least)));
    for (double factor : new double[] {1, 2, 5}) {
      if (factor * power >= least) {
        return factor * power;
      }
    }
    return 10 * power;
  }

  /** The span of the values met so far. */
  private static final class Extent {
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
}
