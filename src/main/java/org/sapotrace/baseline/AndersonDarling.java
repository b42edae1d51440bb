package org.sapotrace.baseline;

import java.util.Arrays;
import org.hipparchus.special.Erf;
import org.hipparchus.stat.StatUtils;

/**
 * The test of Anderson and Darling whether results come from a normal distribution whose mean and
 * standard deviation are estimated from them.
 *
 * <p>A² = -n - (1/n) Σ (2i - 1) [ln Φ(z_i) + ln (1 - Φ(z_(n+1-i)))], with z_1 ≤ … ≤ z_n the results
 * less their mean, divided by their standard deviation (divisor n - 1). The p-value follows from A*
 * = A² (1 + 0.75/n + 2.25/n²). Source: R. B. D'Agostino, M. A. Stephens (editors), Goodness-of-Fit
 * Techniques, Marcel Dekker 1986, section 4.8 and table 4.9, case 3.
 *
 * @param statistic A², at least 0
 * @param pValue how often normal results look at least as unlike normal ones, from 0 to 1
 */
public record AndersonDarling(double statistic, double pValue) {

  /** The least number of results, inclusive, for which the p-value is published. */
  public static final int MIN_RESULTS = 8;

  /** Beyond it the published p-value, a quadratic's exponential, would one day rise again. */
  private static final double LARGEST = 10;

  /** Below it Φ(z) soon underflows, and three terms of its expansion have all digits. */
  private static final double FAR = -30;

  private static final double SQRT_2 = Math.sqrt(2);

  /**
   * Tests results.
   *
   * @param values at least {@value #MIN_RESULTS} finite results, not all equal, in any order
   * @throws IllegalArgumentException for any others
   */
  public static AndersonDarling of(double[] values) {
    double deviation = Math.sqrt(StatUtils.variance(values));
    if (values.length < MIN_RESULTS || !(deviation > 0 && Double.isFinite(deviation))) {
      throw new IllegalArgumentException(
          "Whether results are normal is asked of at least %d finite results that are not all equal."
              .formatted(MIN_RESULTS));
    }
    double mean = StatUtils.mean(values);
    double[] z = Arrays.stream(values).sorted().map(x -> (x - mean) / deviation).toArray();
    int n = z.length;
    double sum = 0;
    for (int i = 1; i <= n; i++) {
      sum += (2 * i - 1) * (logPhi(z[i - 1]) + logPhi(-z[n - i]));
    }
    double statistic = -n - sum / n;
    return new AndersonDarling(statistic, pValue(statistic * (1 + (0.75 + 2.25 / n) / n)));
  }

  private static double pValue(double adjusted) {
    double a = Math.min(adjusted, LARGEST);
    if (a >= 0.6) {
      return Math.exp(1.2937 + a * (-5.709 + a * 0.0186));
    }
    if (a > 0.34) {
      return Math.exp(0.9177 + a * (-4.279 - a * 1.38));
    }
    return a > 0.2
        ? -Math.expm1(-8.318 + a * (42.796 - a * 59.938))
        : -Math.expm1(-13.436 + a * (101.14 - a * 223.73));
  }

  /** ln Φ(z), also where Φ(z) underflows. */
  private static double logPhi(double z) {
    if (z > FAR) {
      return Math.log(Erf.erfc(-z / SQRT_2) / 2);
    }
    double r = 1 / (z * z);
    return Math.log1p(-r * (1 - r * (3 - 15 * r)))
        - z * z / 2
        - Math.log(-z * Math.sqrt(2 * Math.PI));
  }
}
