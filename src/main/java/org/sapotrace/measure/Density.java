package org.sapotrace.measure;

/**
 * The density of a liquid.
 *
 * @param kilogramsPerCubicMetre in kg/m3, from 500 to 2000, both included
 */
public record Density(double kilogramsPerCubicMetre) {

  /** Refuses a value outside the range with {@link IllegalArgumentException}. */
  public Density {
    Range.check("density", kilogramsPerCubicMetre, 500, 2000, " kg/m3");
  }
}
