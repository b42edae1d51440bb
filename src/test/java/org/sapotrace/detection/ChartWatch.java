package org.sapotrace.detection;

import java.util.Map;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;

/** A stream on a chart, with limits from its baseline, as the service takes them. */
record ChartWatch(ControlLimits limits, Detectors detectors) implements Watch {

  ChartWatch(double[] baseline, Detectors detectors) {
    this(ControlLimits.from(baseline, Dispersion.MOVING_RANGE, false), detectors);
  }

  @Override
  public Side[] raised(double[] results) {
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
}
