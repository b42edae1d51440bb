package org.sapotrace.baseline;

import java.util.Arrays;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.PowerTransform;

/**
 * The power that makes results most nearly normal, by maximum likelihood, with its 95 % interval.
 *
 * <p>With g the geometric mean of the results, u = ln (x/g) and z = (e^(lambda u) - 1) / lambda,
 * the profile log-likelihood is l(lambda) = -(n/2) ln (Σ (z - z̄)²/n) - n ln g. The sum of squares
 * is half the mean, over all pairs, of squares whose logarithms are convex in lambda (those of
 * e^(lambda (u+v)/2) sinh(lambda (u-v)/2) / lambda), and a sum of such terms is one; so l is
 * concave: its maximum is the only root of its slope, and the interval of those lambda with
 * l(lambda) ≥ l(maximum) - 3.841/2 is one.
 *
 * <p>Source: G. E. P. Box, D. R. Cox, An analysis of transformations, Journal of the Royal
 * Statistical Society B 26 (1964) 211, doi:10.1111/j.2517-6161.1964.tb00553.x.
 *
 * @param lambda the power, as it comes out
 * @param lower the least power that the results allow, at most lambda
 * @param upper the largest, at least lambda
 */
public record BoxCox(double lambda, double lower, double upper) {

  /** Half the 95 % quantile of chi squared with one degree of freedom. */
  private static final double DROP = 3.841458820694124 / 2;

  /** Results that lie closer together than this part of their size cannot tell powers apart. */
  private static final double FLAT = 1e-6;

  /** e to this power can still be squared. The slope of l is far from 0 before. */
  private static final double LARGEST_EXPONENT = 100;

  private static final double ACCURACY = 1e-12;
  private static final int MAX_EVALUATIONS = 1000;

  /**
   * Estimates the power from results in any order; null where there is none to be had: of fewer
   * than 3 results, of results at or below 0 or not finite, and of results that are almost equal.
   */
  public static @Nullable BoxCox of(double[] values) {
    if (values.length < 3 || !Arrays.stream(values).allMatch(x -> x > 0 && Double.isFinite(x))) {
      return null;
    }
    double[] logs = Arrays.stream(values).map(Math::log).toArray();
    double centre = StatUtils.mean(logs);
    double[] u = Arrays.stream(logs).map(log -> log - centre).toArray();
    double least = StatUtils.min(u);
    double most = StatUtils.max(u);
    if (!(most - least > FLAT)) {
      return null;
    }
    double left = LARGEST_EXPONENT / least;
    double right = LARGEST_EXPONENT / most;
    double lambda = root(power -> slope(power, u), left, right);
    double threshold = logLikelihood(lambda, u) - DROP;
    UnivariateFunction excess = power -> logLikelihood(power, u) - threshold;
    return new BoxCox(lambda, root(excess, left, lambda), root(excess, lambda, right));
  }

  /** The transform with this power. */
  public PowerTransform transform() {
    return new PowerTransform(lambda);
  }

  /** Whether the results allow a power. */
  public boolean allows(double power) {
    return lower <= power && power <= upper;
  }

  /** l, without the constant that the geometric mean contributes. */
  private static double logLikelihood(double lambda, double[] u) {
    double[] z = Arrays.stream(u).map(x -> power(lambda, x)).toArray();
    return -u.length / 2.0 * Math.log(StatUtils.populationVariance(z));
  }

  /** dl/dlambda = -n Σ (z - z̄) z' / Σ (z - z̄)², with z' = dz/dlambda. */
  private static double slope(double lambda, double[] u) {
    double[] z = Arrays.stream(u).map(x -> power(lambda, x)).toArray();
    double mean = StatUtils.mean(z);
    double products = 0;
    for (int i = 0; i < u.length; i++) {
      products += (z[i] - mean) * derivative(lambda, u[i]);
    }
    return -products / StatUtils.populationVariance(z);
  }

  private static double power(double lambda, double u) {
    return lambda == 0 ? u : Math.expm1(lambda * u) / lambda;
  }

  /** dz/dlambda = (lambda u e^(lambda u) - (e^(lambda u) - 1)) / lambda². */
  private static double derivative(double lambda, double u) {
    double a = lambda * u;
    // Near 0 the difference cancels, and few terms of its series do.
    double part =
        Math.abs(a) < 1e-3
            ? 1 / 2.0 + a * (1 / 3.0 + a * (1 / 8.0 + a * (1 / 30.0 + a / 144)))
            : (a * Math.exp(a) - Math.expm1(a)) / (a * a);
    return u * u * part;
  }

  private static double root(UnivariateFunction function, double from, double to) {
    return new BracketingNthOrderBrentSolver(ACCURACY, ACCURACY, 5)
        .solve(MAX_EVALUATIONS, function, from, to);
  }
}
