package org.sapotrace.chartimage;

import java.util.Arrays;
import java.util.BitSet;
import java.util.function.IntPredicate;

/**
 * Leaves out results that no pixel would show: of each column of the picture the lowest and the
 * highest stay, and so do the very first, the very last and every result that must be seen.
 */
final class Thinning {

  private final double[] ys;
  private final BitSet kept = new BitSet();

  private Thinning(double[] ys) {
    this.ys = ys;
  }

  /**
   * The indices that stay, in order.
   *
   * @param xs ascending, px
   * @param ys px; NaN where there is nothing to draw, which breaks the line and stays
   * @param needed whether an index must stay
   */
  static int[] indices(double[] xs, double[] ys, IntPredicate needed) {
    Thinning thinning = new Thinning(ys);
    int start = 0;
    for (int i = 0; i < xs.length; i++) {
      if (Double.isNaN(ys[i]) || needed.test(i) || i == 0 || i == xs.length - 1) {
        thinning.kept.set(i);
      }
      boolean ends = i + 1 == xs.length || Math.floor(xs[i + 1]) != Math.floor(xs[i]);
      if (ends) {
        thinning.keepOutline(start, i);
        start = i + 1;
      }
    }
    return thinning.kept.stream().toArray();
  }

  private void keepOutline(int from, int to) {
    int lowest = from;
    int highest = from;
    for (int i = from; i <= to; i++) {
      // Any comparison with NaN is false, and a NaN start gives way to the first number.
      lowest = ys[i] < ys[lowest] || Double.isNaN(ys[lowest]) ? i : lowest;
      highest = ys[i] > ys[highest] || Double.isNaN(ys[highest]) ? i : highest;
    }
    kept.set(lowest);
    kept.set(highest);
  }

  /** The chosen elements of an array. */
  static double[] pick(double[] values, int[] indices) {
    return Arrays.stream(indices).mapToDouble(i -> values[i]).toArray();
  }
}
