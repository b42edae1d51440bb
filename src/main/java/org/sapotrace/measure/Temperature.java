package org.sapotrace.measure;

/**
 * The temperature at which a liquid was measured out.
 *
 * @param celsius in degrees Celsius, from -50 to 100, both included
 */
public record Temperature(double celsius) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public Temperature {
    Range.check("temperature", celsius, -50, 100, " °C");
  }
}
