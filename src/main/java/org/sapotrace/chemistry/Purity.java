package org.sapotrace.chemistry;

import org.sapotrace.measure.Rounding;

/**
 * The purity of a primary standard.
 *
 * @param massFraction P, from 0.5 to 1.01, both included: certificates may say a little more than 1
 * @param halfWidth a, so that the purity lies anywhere in P - a to P + a; from 0 to 0.5, both
 *     included
 */
public record Purity(double massFraction, double halfWidth) {

  /** Refuses what is no purity with {@link IllegalArgumentException}. */
  public Purity {
    if (!(massFraction >= 0.5 && massFraction <= 1.01)) {
      throw new IllegalArgumentException(
          "The purity is %s; it must be a fraction from 0.5 to 1.01, as 0.9995 for 99.95 %%."
              .formatted(Rounding.of(massFraction)));
    }
    if (!(halfWidth >= 0 && halfWidth <= 0.5)) {
      throw new IllegalArgumentException(
          "The purity is given to within %s; it must be a fraction from 0 to 0.5, as 0.0005 for 0.05 %%."
              .formatted(Rounding.of(halfWidth)));
    }
  }

  /** A purity taken as exact. */
  public static Purity of(double massFraction) {
    return new Purity(massFraction, 0);
  }

  /** Rectangular, u = a / sqrt(3): EURACHEM/CITAC QUAM:2012, example A2. */
  double standardUncertainty() {
    return halfWidth / Math.sqrt(3);
  }
}
