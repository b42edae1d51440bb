package org.sapotrace.measure;

/** The checks of this package, in the form that NaN does not pass. */
final class Range {

  private Range() {}

  /** Refuses what is not from {@code lowest} to {@code highest}, both included. */
  static void check(String what, double value, double lowest, double highest, String unit) {
    if (value >= lowest && value <= highest) {
      return;
    }
    throw new IllegalArgumentException(
        "The %s is %s; it must be from %s to %s%s: check the entry and its unit."
            .formatted(
                what,
                Double.isFinite(value) ? Rounding.of(value) + unit : Rounding.of(value),
                Rounding.of(lowest),
                Rounding.of(highest),
                unit));
  }

  /** Refuses what is not finite and at least zero. */
  static void checkUncertainty(String what, double value) {
    if (value >= 0 && value < Double.POSITIVE_INFINITY) {
      return;
    }
    throw new IllegalArgumentException(
        "The standard uncertainty of the %s is %s; it must be a number of at least 0."
            .formatted(what, Rounding.of(value)));
  }

  /** Refuses what is not above zero; infinite is allowed. */
  static void checkDegreesOfFreedom(double value) {
    if (value > 0) {
      return;
    }
    throw new IllegalArgumentException(
        "The degrees of freedom are %s; they must be more than 0.".formatted(Rounding.of(value)));
  }
}
