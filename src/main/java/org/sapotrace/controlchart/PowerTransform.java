package org.sapotrace.controlchart;

/**
 * The transform of Box and Cox: y = (x^lambda - 1) / lambda, and y = ln x for lambda 0. It turns
 * skewed positive results into nearly normal ones.
 *
 * <p>Source: G. E. P. Box, D. R. Cox, An analysis of transformations, Journal of the Royal
 * Statistical Society B 26 (1964) 211, doi:10.1111/j.2517-6161.1964.tb00553.x.
 *
 * @param lambda the power, finite; 1 leaves the shape as it is, 0 is the logarithm
 */
public record PowerTransform(double lambda) {

  /**
   * Takes a power.
   *
   * @throws IllegalArgumentException if it is not finite
   */
  public PowerTransform {
    if (!Double.isFinite(lambda)) {
      throw new IllegalArgumentException("The power of a Box-Cox transform must be finite.");
    }
  }

  /**
   * y for a result x.
   *
   * @param x above 0
   * @throws IllegalArgumentException for any other x
   */
  public double apply(double x) {
    if (!(x > 0)) {
      throw new IllegalArgumentException(
          "A Box-Cox or log scale takes results above 0 only. Use the linear scale.");
    }
    double log = Math.log(x);
    // expm1 keeps the digits where lambda is near 0.
    return lambda == 0 ? log : Math.expm1(lambda * log) / lambda;
  }

  /**
   * The x whose transform is y: (1 + lambda y)^(1/lambda), and e^y for lambda 0.
   *
   * @return above 0; NaN where 1 + lambda y is not above 0, so that no x has this transform
   */
  public double inverse(double y) {
    if (lambda == 0) {
      return Math.exp(y);
    }
    return lambda * y > -1 ? Math.exp(Math.log1p(lambda * y) / lambda) : Double.NaN;
  }
}
