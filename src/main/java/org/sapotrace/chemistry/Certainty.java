package org.sapotrace.chemistry;

import org.sapotrace.measure.Rounding;

/** How well a quantity must be known for a figure to be made of it. */
final class Certainty {

  // At 10 the second order of 1/x, (u/x)^2, is still 1 % of the figure, and no error that a normal
  // distribution ever makes reaches x = 0, where neither law of propagation holds (JCGM 100:2008,
  // 5.1.2, note; JCGM 101:2008, 5.8).
  private static final double LEAST = 10;

  private Certainty() {}

  /**
   * Refuses a quantity below 10 times its standard uncertainty.
   *
   * @param what it is, in words that follow "The"
   * @param remedy what to do, in words
   * @throws IllegalArgumentException saying so
   */
  static void check(
      String what, double value, double standardUncertainty, String unit, String remedy) {
    if (value >= LEAST * standardUncertainty) {
      return;
    }
    throw new IllegalArgumentException(
        "The %s of %s %s is less than 10 times its own uncertainty of %s %s: %s."
            .formatted(
                what, Rounding.of(value), unit, Rounding.of(standardUncertainty), unit, remedy));
  }
}
