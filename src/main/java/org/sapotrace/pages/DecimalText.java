package org.sapotrace.pages;

import java.math.BigDecimal;
import java.util.regex.Pattern;

/** Decimal numbers as people type and read them. */
final class DecimalText {

  private static final Pattern WITH_POINT = Pattern.compile("[-+]?([0-9]+(\\.[0-9]*)?|\\.[0-9]+)");
  private static final Pattern WITH_COMMA = Pattern.compile("[-+]?([0-9]+,[0-9]+|,[0-9]+)");

  /** A comma that may part the thousands: nobody writes 0,470 or 1,23 for a number in thousands. */
  private static final Pattern PERHAPS_THOUSANDS = Pattern.compile("[-+]?[1-9][0-9]{0,2},[0-9]{3}");

  private static final int LONGEST = 40;

  private DecimalText() {}

  /**
   * The number that a text stands for. A decimal comma is taken for a point, unless it may as well
   * part thousands.
   *
   * @throws IllegalArgumentException for any other text, with a message for whoever typed it
   */
  static double parse(String text) {
    // The minus sign of typesetting, as it comes with copied figures.
    String typed = text.replace('\u2212', '-');
    if (PERHAPS_THOUSANDS.matcher(typed).matches()) {
      String point = typed.replace(',', '.');
      throw new IllegalArgumentException(
          "%s may mean %s or %s. Write %s, or %s0 if there is no point on your keyboard."
              .formatted(text, point, typed.replace(",", ""), point, typed));
    }
    boolean isNumber = WITH_POINT.matcher(typed).matches() || WITH_COMMA.matcher(typed).matches();
    if (isNumber && typed.length() <= LONGEST) {
      return Double.parseDouble(typed.replace(',', '.'));
    }
    throw new IllegalArgumentException("Write a number in digits, such as 0.47.");
  }

  /** A number as it is typed, to the last digit. */
  static String write(double value) {
    // Of zero, stripping would keep the decimals.
    return value == 0 ? "0" : BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
  }
}
