package org.sapotrace.runlength;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.RunState;
import org.sapotrace.controlchart.Spread;

/** A chart with centre 0 and sigma 1 on which one result after the other is put. */
final class SimulatedChart {

  private static final ControlLimits LIMITS = new ControlLimits(0, 1, false);
  private static final double MOVING_RANGE_LIMIT = Spread.RANGE.limits(LIMITS.sigma(), 2).upper();

  private final Set<RunRule> rules;
  private final @Nullable Ewma ewma;
  private final @Nullable Cusum cusum;
  private final boolean movingRange;

  private RunState state = RunState.START;
  private double last = Double.NaN;
  private double average = 0;
  // (1 - λ)^(2i) after i results.
  private double unsettled = 1;
  private double high;
  private double low;

  SimulatedChart(ChartDesign design) {
    rules = design.detectors().rules();
    ewma = design.detectors().ewma();
    cusum = design.detectors().cusum();
    movingRange = design.movingRange();
    high = cusum == null ? 0 : cusum.headStart();
    low = high;
  }

  /** Puts one more result on the chart; answers whether the chart signals at it. */
  boolean signals(double x) {
    // No moving range has a result before the first.
    boolean signals = movingRange && Math.abs(x - last) > MOVING_RANGE_LIMIT;
    last = x;
    if (!rules.isEmpty()) {
      state = state.next(x, LIMITS);
      signals |= rules.stream().anyMatch(rule -> state.side(rule) != null);
    }
    if (ewma != null) {
      signals |= averageSignals(x, ewma);
    }
    if (cusum != null) {
      high = Math.max(0, high + x - cusum.reference());
      low = Math.max(0, low - x - cusum.reference());
      signals |= Math.max(high, low) > cusum.decision();
    }
    return signals;
  }

  private boolean averageSignals(double x, Ewma ewma) {
    double kept = 1 - ewma.lambda();
    average = ewma.lambda() * x + kept * average;
    unsettled *= kept * kept;
    double variance = ewma.lambda() / (2 - ewma.lambda()) * (1 - unsettled);
    return Math.abs(average) > ewma.width() * Math.sqrt(variance);
  }
}
