package org.sapotrace.detection;

import java.util.Arrays;
import java.util.Map;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;

/**
 * A stream under watch: its limits from a baseline, as the service takes them.
 *
 * @param limits from moving ranges
 * @param detectors in use
 */
record Watch(ControlLimits limits, Detectors detectors) {

  static Watch on(double[] baseline, Detectors detectors) {
    return new Watch(ControlLimits.from(baseline, Dispersion.MOVING_RANGE, false), detectors);
  }

  /**
   * Watches results from the first on.
   *
   * @param results some may be NaN: not sampled
   * @return at each of them, the side of a signal that was raised there; null for none
   */
  Side[] raised(double[] results) {
    Side[] raised = new Side[results.length];
    ChartState state = ChartState.START;
    Map<SignalRule, Side> before = Map.of();
    for (int i = 0; i < results.length; i++) {
      if (!Double.isNaN(results[i])) {
        state = state.next(results[i], limits, detectors);
        Map<SignalRule, Side> now = state.signalling(detectors);
        for (Map.Entry<SignalRule, Side> going : now.entrySet()) {
          if (going.getValue() != before.get(going.getKey())) {
            raised[i] = going.getValue();
          }
        }
        before = now;
      }
    }
    return raised;
  }

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
