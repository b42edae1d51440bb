package org.sapotrace.measure;

/**
 * A mass, of a test portion or of a primary standard. The lower bound is what the finest balance
 * shows.
 *
 * @param grams in g, from 0.000 001 to 100 000, both included
 */
public record Mass(double grams) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public Mass {
    Range.check("mass", grams, 1e-6, 100_000, " g");
  }
}
