package org.sapotrace.chartimage;

import java.math.BigDecimal;
import java.util.Locale;

/**
 * How numbers are written on one picture.
 *
 * @param decimals digits after the point
 * @param powers whether they are written with a power of ten, the digits being those of the
 *     mantissa
 */
record Digits(int decimals, boolean powers) {

  /**
   * As many digits as tell apart numbers that differ by a step.
   *
   * @param largest the largest magnitude to be written
   * @param step the smallest difference to be seen, above zero
   */
  static Digits telling(double largest, double step) {
    int finest = (int) Math.floor(Math.log10(step) + 1e-9);
    if (largest < 1e6 && finest >= -5) {
      return new Digits(Math.max(0, -finest), false);
    }
    int first = largest > 0 ? (int) Math.floor(Math.log10(largest)) : finest;
    return new Digits(Math.max(0, Math.min(14, first - finest)), true);
  }

  String write(double value) {
    if (!powers || value == 0) {
      String plain = String.format(Locale.ROOT, "%." + (powers ? 0 : decimals) + "f", value);
      return minus(plain.matches("-0(\\.0*)?") ? plain.substring(1) : plain);
    }
    String text = String.format(Locale.ROOT, "%." + decimals + "e", value);
    return minus(text.replaceFirst("e\\+?(-?)0*(\\d)", "e$1$2"));
  }

  /** A number that a person set, with the digits that the person gave as far as they are few. */
  String given(double value) {
    BigDecimal exact = BigDecimal.valueOf(value).stripTrailingZeros();
    boolean few = exact.precision() <= 7 && Math.abs(value) < 1e6 && exact.scale() <= 6;
    return few ? minus(exact.toPlainString()) : write(value);
  }

  private static String minus(String text) {
    return text.replace('-', '−');
  }
}
