package org.sapotrace.chemistry;

/**
 * A balance, and what it adds to the uncertainty of a weighed portion.
 *
 * @param standardUncertaintyG of one weighing, in g, finite and at least 0
 */
public record Balance(double standardUncertaintyG) {

  /** Refuses what is no uncertainty with {@link IllegalArgumentException}. */
  public Balance {
    if (!(standardUncertaintyG >= 0 && standardUncertaintyG < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException(
          "The uncertainty of the balance must be a number of at least 0 g.");
    }
  }

  /**
   * A balance known by its readability d alone: rectangular over d to either side, u = d / sqrt(3).
   *
   * @param readabilityG d, in g, finite and at least 0
   */
  public static Balance readableTo(double readabilityG) {
    return new Balance(readabilityG / Math.sqrt(3));
  }

  /** What is assumed for samples where no balance is named: readable to 0.01 g. */
  public static Balance assumed() {
    return readableTo(0.01);
  }

  /** What is assumed for primary standards: readable to 0.1 mg. */
  public static Balance assumedForStandards() {
    return readableTo(0.0001);
  }
}
