package org.sapotrace.measure;

/**
 * A quantity together with how well it is known.
 *
 * @param <Q> the kind of quantity, such as {@link Normality}
 * @param quantity the best estimate
 * @param standardUncertainty its standard uncertainty in the unit of the quantity, finite and at
 *     least 0; 0 takes the quantity as exact
 * @param degreesOfFreedom of that uncertainty, more than 0; infinite where it was not found from a
 *     series of observations (type B, JCGM 100:2008, G.4.2)
 */
public record Measured<Q>(Q quantity, double standardUncertainty, double degreesOfFreedom) {

  /** Refuses a negative or unknown uncertainty with {@link IllegalArgumentException}. */
  public Measured {
    Range.checkUncertainty("value", standardUncertainty);
    Range.checkDegreesOfFreedom(degreesOfFreedom);
  }

  /** A quantity whose uncertainty counts for nothing. */
  public static <Q> Measured<Q> exactly(Q quantity) {
    return of(quantity, 0);
  }

  /**
   * A quantity with an uncertainty that is taken as known.
   *
   * @param standardUncertainty in the unit of the quantity, finite and at least 0
   */
  public static <Q> Measured<Q> of(Q quantity, double standardUncertainty) {
    return new Measured<>(quantity, standardUncertainty, Double.POSITIVE_INFINITY);
  }
}
