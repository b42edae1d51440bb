package org.sapotrace.measure;

/**
 * The molar mass of what a result is expressed as.
 *
 * @param gramsPerMole in g/mol, from 1 to 10 000, both included
 */
public record MolarMass(double gramsPerMole) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public MolarMass {
    Range.check("molar mass", gramsPerMole, 1, 10_000, " g/mol");
  }
}
