package org.sapotrace.measure;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** Numbers as people read them. Nothing that is computed or stored passes through here. */
public final class Rounding {

  private static final MathContext UNCERTAINTY = new MathContext(2, RoundingMode.HALF_EVEN);
  private static final MathContext AS_TYPED = new MathContext(6, RoundingMode.HALF_EVEN);
  private static final MathContext COMPUTED = new MathContext(4, RoundingMode.HALF_EVEN);

  // Beyond these a number is written with a power of ten.
  private static final double SHORTEST = 1e-9;
  private static final double LONGEST = 1e12;

  private Rounding() {}

  /**
   * A value with its expanded uncertainty, such as {@code 35.1 ± 3.2}: the uncertainty to two
   * significant figures and the value to the same place (JCGM 100:2008, 7.2.6).
   *
   * @param value finite
   * @param expandedUncertainty finite and at least 0; with 0, or where either number is too long to
   *     be read, both are written as by {@link #of(double)}
   */
  public static String of(double value, double expandedUncertainty) {
    if (!isReadable(expandedUncertainty) || Math.abs(value) >= LONGEST) {
      return of(value) + " ± " + of(expandedUncertainty);
    }
    BigDecimal uncertainty = BigDecimal.valueOf(expandedUncertainty).round(UNCERTAINTY);
    // 0.5 carries one figure only: it is padded to 0.50.
    int places = uncertainty.scale() + 2 - uncertainty.precision();
    return BigDecimal.valueOf(value).setScale(places, RoundingMode.HALF_EVEN).toPlainString()
        + " ± "
        + uncertainty.setScale(places, RoundingMode.HALF_EVEN).toPlainString();
  }

  /**
   * A number without an uncertainty: as it stands if it has no more than six significant figures,
   * as what people type has, and otherwise to four.
   *
   * @param value any; what is not a finite number is named in words
   */
  public static String of(double value) {
    if (Double.isNaN(value)) {
      return "not a number";
    }
    if (Double.isInfinite(value)) {
      return value > 0 ? "infinite" : "minus infinite";
    }
    BigDecimal exact = BigDecimal.valueOf(value).stripTrailingZeros();
    boolean asTyped = exact.precision() <= AS_TYPED.getPrecision();
    BigDecimal shown = (asTyped ? exact : exact.round(COMPUTED)).stripTrailingZeros();
    return value == 0 || isReadable(value) ? shown.toPlainString() : shown.toString();
  }

  private static boolean isReadable(double value) {
    return Math.abs(value) >= SHORTEST && Math.abs(value) < LONGEST;
  }

  /**
   * A probability in whole percent, rounded towards an even chance so that it never sounds surer
   * than it is; {@code over 99 %} and {@code under 1 %} beyond that.
   *
   * @param probability from 0 to 1
   */
  public static String percent(double probability) {
    if (probability > 0.99) {
      return "over 99 %";
    }
    if (probability < 0.01) {
      return "under 1 %";
    }
    RoundingMode towardsEvenChance = probability > 0.5 ? RoundingMode.FLOOR : RoundingMode.CEILING;
    return BigDecimal.valueOf(probability).movePointRight(2).setScale(0, towardsEvenChance) + " %";
  }
}
