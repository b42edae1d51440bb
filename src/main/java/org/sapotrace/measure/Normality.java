package org.sapotrace.measure;

/**
 * The normality of a titrant: moles of H+ (or OH-) that one litre of it gives.
 *
 * @param molesPerLitre in mol/L, from 0.000 001 to 10, both included
 */
public record Normality(double molesPerLitre) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public Normality {
    Range.check("normality", molesPerLitre, 1e-6, 10, " mol/L");
  }
}
