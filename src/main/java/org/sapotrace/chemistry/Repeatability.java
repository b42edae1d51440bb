package org.sapotrace.chemistry;

/**
 * How far single titrations of one sample by one analyst scatter, found from a bench's own
 * replicates.
 *
 * @param standardDeviation s_r in the unit of the figure, or, where it is proportional, as a
 *     fraction of the figure; finite and at least 0
 * @param isProportional whether it grows with the level of the figure
 * @param degreesOfFreedom of it, at least 1
 */
public record Repeatability(
    double standardDeviation, boolean isProportional, int degreesOfFreedom) {

  /** Refuses what is no standard deviation with {@link IllegalArgumentException}. */
  public Repeatability {
    if (!(standardDeviation >= 0 && standardDeviation < Double.POSITIVE_INFINITY)
        || degreesOfFreedom < 1) {
      throw new IllegalArgumentException(
          "The repeatability must be a number of at least 0 with a degree of freedom at least.");
    }
  }

  /** s_r at a level, in its unit. */
  public double at(double level) {
    return isProportional ? standardDeviation * Math.abs(level) : standardDeviation;
  }
}
