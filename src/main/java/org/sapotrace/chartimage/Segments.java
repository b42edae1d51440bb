package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/** Lines of one look, in px from the top left of the plot, kept apart by breaks. */
final class Segments {

  private final List<double[]> xs = new ArrayList<>();
  private final List<double[]> ys = new ArrayList<>();

  void add(double x1, double y1, double x2, double y2) {
    addPath(new double[] {x1, x2}, new double[] {y1, y2});
  }

  /** A line through points, broken where a y is NaN. */
  void addPath(double[] pathXs, double[] pathYs) {
    if (pathXs.length > 0) {
      xs.add(pathXs);
      ys.add(pathYs);
      xs.add(new double[] {pathXs[pathXs.length - 1]});
      ys.add(new double[] {Double.NaN});
    }
  }

  double[] xs() {
    return xs.stream().flatMapToDouble(Arrays::stream).toArray();
  }

  double[] ys() {
    return ys.stream().flatMapToDouble(Arrays::stream).toArray();
  }

  /** Tells whatever seeks free space that the lines are there. */
  void occupy(FreeSpace space) {
    double[] x = xs();
    double[] y = ys();
    for (int i = 1; i < x.length; i++) {
      if (Double.isFinite(y[i - 1]) && Double.isFinite(y[i])) {
        space.line(x[i - 1], y[i - 1], x[i], y[i]);
      }
    }
  }
}
