package org.sapotrace.chemistry;

import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;

/**
 * What a titration of a sample is usually done with. One that is done otherwise may be right; more
 * often a decimal point or a unit is not.
 */
public enum UsualTitration {
  SOAP(
      0.01,
      0.1,
      "AOCS Cc 17-95 takes 0.01 mol/L, from memory; for crude up to 0.1 mol/L, common practice, no source",
      1,
      200,
      "AOCS Cc 17-95 takes 40 g, from memory; the trade 10 g to 100 g, common practice, no source"),
  /** Soap where little of it is left. */
  WASHED_SOAP(
      0.01, 0.01, "AOCS Cc 17-95 takes 0.01 mol/L, from memory", 1, 200, SOAP.whichPortions),
  ACID_NUMBER(
      0.1,
      0.1,
      "EN 14104 takes 0.1 mol/L, from memory",
      0.5,
      50,
      "0.5 g to 50 g, common practice, no source"),
  FREE_FATTY_ACID(
      0.1,
      1,
      "AOCS Ca 5a-40 takes 0.1, 0.25 or 1 mol/L, from memory",
      1,
      60,
      "AOCS Ca 5a-40 takes 7.05 g to 56.4 g, from memory");

  /** The test portion of AOCS Cc 17-95 in g (from memory). */
  public static final double SOAP_PORTION_G = 40;

  // Beyond these nothing is titrated here, whatever the method (common practice, no source).
  private static final double LEAST_NORMALITY = 0.0005;
  private static final double MOST_NORMALITY = 2;
  private static final double LEAST_PORTION_G = 0.05;
  private static final double MOST_PORTION_G = 1000;

  private final double weakest;
  private final double strongest;
  private final String whichTitrants;
  private final double leastG;
  private final double mostG;
  private final String whichPortions;

  UsualTitration(
      double weakest,
      double strongest,
      String whichTitrants,
      double leastG,
      double mostG,
      String whichPortions) {
    this.weakest = weakest;
    this.strongest = strongest;
    this.whichTitrants = whichTitrants;
    this.leastG = leastG;
    this.mostG = mostG;
    this.whichPortions = whichPortions;
  }

  /**
   * The normality as somebody states it.
   *
   * @param molesPerLitre from 0.0005 to 2 mol/L, both included
   * @throws IllegalArgumentException for what no titration here takes
   */
  public static Normality titrant(double molesPerLitre) {
    if (molesPerLitre >= LEAST_NORMALITY && molesPerLitre <= MOST_NORMALITY) {
      return new Normality(molesPerLitre);
    }
    throw new IllegalArgumentException(
        "Nothing is titrated here with %s mol/L; it must be from %s to %s mol/L: check the decimal point and the unit."
            .formatted(
                Rounding.of(molesPerLitre),
                Rounding.of(LEAST_NORMALITY),
                Rounding.of(MOST_NORMALITY)));
  }

  /**
   * The test portion as somebody states it, or as its volume makes it.
   *
   * @param grams from 0.05 to 1000 g, both included
   * @throws IllegalArgumentException for what no titration takes
   */
  public static Mass portion(double grams) {
    if (grams >= LEAST_PORTION_G && grams <= MOST_PORTION_G) {
      return new Mass(grams);
    }
    throw new IllegalArgumentException(
        "Nobody titrates a test portion of %s g; it must be from %s to %s g: check the unit."
            .formatted(
                Rounding.of(grams), Rounding.of(LEAST_PORTION_G), Rounding.of(MOST_PORTION_G)));
  }

  /** Whether a titrant has from half of the weakest usual normality to twice the strongest. */
  public boolean takes(Normality titrant) {
    return titrant.molesPerLitre() >= weakest / 2 && titrant.molesPerLitre() <= 2 * strongest;
  }

  /** Which titrants are usual, and by whose word. */
  public String whichTitrants() {
    return whichTitrants;
  }

  /** Whether a test portion is of a usual size. */
  public boolean takes(Mass portion) {
    return portion.grams() >= leastG && portion.grams() <= mostG;
  }

  /** Which test portions are usual, and by whose word. */
  public String whichPortions() {
    return whichPortions;
  }
}
