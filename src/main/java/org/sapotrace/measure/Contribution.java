package org.sapotrace.measure;

/**
 * What one source of error adds to the uncertainty of a result: u_i(y) = |dy/dx_i| u(x_i), JCGM
 * 100:2008, 5.1.3.
 *
 * @param source the source in plain words, such as {@code end point}
 * @param standardUncertainty u_i(y), in the unit of the result, finite and at least 0
 * @param degreesOfFreedom of u(x_i), more than 0; infinite for a type B evaluation
 */
public record Contribution(String source, double standardUncertainty, double degreesOfFreedom) {

  /** Refuses an uncertainty that is none with {@link IllegalArgumentException}. */
  public Contribution {
    Range.checkUncertainty("result from the " + source, standardUncertainty);
    Range.checkDegreesOfFreedom(degreesOfFreedom);
  }

  /** A contribution whose standard uncertainty is taken as known (type B). */
  public static Contribution of(String source, double standardUncertainty) {
    return new Contribution(source, standardUncertainty, Double.POSITIVE_INFINITY);
  }
}
