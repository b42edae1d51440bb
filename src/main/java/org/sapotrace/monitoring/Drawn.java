package org.sapotrace.monitoring;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.controlchart.Spread;

/**
 * What is drawn at one result, and what it is judged by; NaN and null for what there is not.
 *
 * @param plotted what is drawn, in the unit that it is drawn in
 * @param onScale the same on the scale on which it is judged
 * @param below a second statistic, drawn below zero
 */
record Drawn(
    double plotted,
    double onScale,
    double below,
    @Nullable Double standardUncertainty,
    @Nullable Double centre,
    @Nullable Double upper,
    @Nullable Double lower,
    Set<SignalRule> signals) {

  static final Drawn NOTHING =
      new Drawn(Double.NaN, Double.NaN, Double.NaN, null, null, null, null, Set.of());

  /** How far results scatter, which raises no signals. */
  static Drawn ofSpread(double spread, Spread.@Nullable Limits limits) {
    return new Drawn(
        spread,
        spread,
        Double.NaN,
        null,
        limits == null ? null : (Double) limits.centre(),
        limits == null ? null : (Double) limits.upper(),
        limits == null ? null : limits.lower(),
        Set.of());
  }
}
