package org.sapotrace.measure;

/**
 * A volume of liquid: a titrant reading, a blank or a test portion.
 *
 * @param millilitres in mL, from 0 to 100 000, both included
 */
public record Volume(double millilitres) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public Volume {
    Range.check("volume", millilitres, 0, 100_000, " mL");
  }
}
