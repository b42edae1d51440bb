package org.sapotrace.bench;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Calculation;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.refusal.Refusal;

/** How uncertainty is propagated where variances are not enough. */
public enum Propagation {
  /** By distributions: JCGM 101:2008. */
  MONTE_CARLO("monte-carlo");

  // The same readings get the same answer.
  private static final long SEED = 20_260_101;

  // For an end of the interval to within some 1 % of it.
  private static final int TRIALS_OF_A_CHECK = 20_000;

  private final String id;

  Propagation(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code monte-carlo}. */
  public String id() {
    return id;
  }

  /**
   * The distribution to check a budget by; null where it could say nothing else. Trials for every
   * titration would take several times as long as all else that is done to record it, and nearly
   * all of them are as good as linear.
   */
  static @Nullable MonteCarlo check(Calculation calculation) {
    return calculation.needsDistributions() ? calculation.propagate(SEED, TRIALS_OF_A_CHECK) : null;
  }

  /**
   * The distribution of a figure, or null where variances are wanted.
   *
   * @throws Refusal for readings so uncertain that the figure has no finite spread
   */
  static @Nullable MonteCarlo apply(@Nullable Propagation wanted, Calculation calculation) {
    if (wanted == null) {
      return null;
    }
    MonteCarlo found = calculation.propagate(SEED);
    if (Double.isFinite(found.standardUncertainty())
        && Double.isFinite(found.upper() - found.lower())) {
      return found;
    }
    throw Refusal.impossible(
        "The readings are too uncertain for distributions to be propagated: check volumes and masses.");
  }
}
