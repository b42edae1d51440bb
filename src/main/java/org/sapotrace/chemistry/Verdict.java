package org.sapotrace.chemistry;

import org.jspecify.annotations.Nullable;

/**
 * What a result says about a specification, and what to do next.
 *
 * @param outcome whether the specification is met
 * @param probabilityConforming the probability that the true value meets the specification, from 0
 *     to 1; null where the result came without an uncertainty
 * @param limit the specification limit that decides, in the unit of the result
 * @param advice what to do
 * @param reason why, in one sentence for the person at the sampling point
 * @param replicatesToDecide how many further replicates are expected to settle it; 0 where it is
 *     settled, null where no reasonable number will or where that is not known
 */
public record Verdict(
    Outcome outcome,
    @Nullable Double probabilityConforming,
    double limit,
    Advice advice,
    String reason,
    @Nullable Integer replicatesToDecide) {

  /** Whether a specification is met. */
  public enum Outcome {
    CONFORMING("conforming"),
    NONCONFORMING("nonconforming"),
    /** The uncertainty leaves both possible, or the titration came out impossibly low. */
    INCONCLUSIVE("inconclusive");

    private static final double SURE = 0.95;

    private final String id;

    Outcome(String id) {
      this.id = id;
    }

    /** The name in the interface, such as {@code inconclusive}. */
    public String id() {
      return id;
    }

    /** The outcome for a probability of conforming: at least 0.95, at most 0.05, or in between. */
    static Outcome of(double probabilityConforming) {
      if (probabilityConforming >= SURE) {
        return CONFORMING;
      }
      return probabilityConforming <= 1 - SURE ? NONCONFORMING : INCONCLUSIVE;
    }
  }
}
