package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;
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
  static final double LEAST_SHARE = 0.25;

  /** The same beside a withdrawn result, which is often a slip of the pen. */
  private static final double LEAST_SHARE_OF_WITHDRAWN = 0.6;

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

  /** The distance of a value from the foot of the scale, as it is drawn from left to right, px. */
  double along(double value) {
    return height - y(value);
  }

  /** The value that lies there. */
  double at(double along) {
    return bottom + along / height * (top - bottom);
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
}
