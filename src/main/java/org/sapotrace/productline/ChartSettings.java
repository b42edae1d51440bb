package org.sapotrace.productline;

import java.util.EnumSet;
import java.util.Set;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.RunRule;

/**
 * How a stream is charted.
 *
 * @param dispersion how the standard deviation of the process is estimated from a baseline
 * @param rules the run rules that raise signals; may be empty
 */
public record ChartSettings(Dispersion dispersion, Set<RunRule> rules) {

  /** Limits alone: every added rule costs false alarms. */
  public static final ChartSettings DEFAULT =
      new ChartSettings(Dispersion.MOVING_RANGE, EnumSet.of(RunRule.BEYOND_LIMITS));

  public ChartSettings {
    // A copy in the rules' declared order, in which they are listed everywhere.
    EnumSet<RunRule> ordered = EnumSet.noneOf(RunRule.class);
    ordered.addAll(rules);
    rules = java.util.Collections.unmodifiableSet(ordered);
  }
}
