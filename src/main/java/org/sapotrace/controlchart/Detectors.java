package org.sapotrace.controlchart;

import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What raises signals on a chart.
 *
 * @param rules the run rules in use, in their declared order; may be empty
 * @param ewma the moving average in use; null for none
 * @param cusum the cumulative sum in use; null for none
 */
public record Detectors(Set<RunRule> rules, @Nullable Ewma ewma, @Nullable Cusum cusum) {

  /** Limits for large shifts and a moving average for small ones: every rule more costs alarms. */
  public static final Detectors DEFAULT =
      new Detectors(EnumSet.of(RunRule.BEYOND_LIMITS), Ewma.DEFAULT, null);

  public Detectors {
    EnumSet<RunRule> ordered = EnumSet.noneOf(RunRule.class);
    ordered.addAll(rules);
    rules = Collections.unmodifiableSet(ordered);
  }
}
