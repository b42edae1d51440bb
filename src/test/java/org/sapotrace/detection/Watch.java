package org.sapotrace.detection;

import java.util.Arrays;
import org.sapotrace.controlchart.Side;

/** A stream under watch. */
@FunctionalInterface
interface Watch {

  /**
   * Watches results from the first on.
   *
   * @param results some may be NaN: not sampled
   * @return at each of them, the side of a signal that was raised there; null for none
   */
  Side[] raised(double[] results);

  /** The first signal to that side from a place on; as many as there are results for none. */
  static int first(Side[] raised, int from, Side side) {
    int i = from;
    while (i < raised.length && raised[i] != side) {
      i++;
    }
    return i;
  }

  /** How many results raised a signal. */
  static long count(Side[] raised) {
    return Arrays.stream(raised).filter(side -> side != null).count();
  }
}
