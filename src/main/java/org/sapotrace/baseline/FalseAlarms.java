package org.sapotrace.baseline;

import static org.sapotrace.controlchart.ControlChartConstants.MAX_RANGE_SIZE;
import static org.sapotrace.controlchart.ControlChartConstants.c4;
import static org.sapotrace.controlchart.ControlChartConstants.d2;
import static org.sapotrace.controlchart.ControlChartConstants.d3;

import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.StatUtils;
import org.sapotrace.controlchart.Dispersion;

/**
 * How often a result in control falls beyond three-sigma limits that were estimated from few
 * results: more often than the 0.0027 of limits that are known, on average over all baselines of
 * that size.
 *
 * <p>The rates are computed for independent normal results from the distributions of the estimates;
 * by the standard deviation, it is P(|T| &gt; 3/(c4(n) √(1 + 1/n))), with T of Student's
 * distribution with n - 1 degrees of freedom. Between them the rate is interpolated linearly in
 * 1/n, with which it rises almost in proportion. What estimated limits are worth: C. P.
 * Quesenberry, The effect of sample size on estimated limits for X̄ and X control charts, Journal
 * of Quality Technology 25 (1993) 237, doi:10.1080/00224065.1993.11979470.
 *
 * <p>From m subgroups, the estimate of sigma is the mean of m independent ones, whose squares are
 * nearly those of a chi distribution with ν degrees of freedom and the same relative variance V: ν
 * = 1/(2V) + 1/4, with V = Σ v(n_i)/m², v(n) = 1/c4(n)² - 1 for standard deviations and
 * (d3(n)/d2(n))² for ranges. Then the rate is P(|T| &gt; 3 √(1 + V)/√(1 + 1/m)), T with ν degrees
 * of freedom (P. B. Patnaik, Biometrika 37 (1950) 78, doi:10.1093/biomet/37.1-2.78).
 */
final class FalseAlarms {

  /** Of limits that are known: 2 Φ(-3). */
  static final double KNOWN = 0.0026997960632601866;

  private static final double[] SIZES = {10, 20, 25, 50, 100, 300, 1000};
  private static final double[] BY_MOVING_RANGE = {
    0.023433, 0.010902, 0.008864, 0.005376, 0.003930, 0.003086, 0.002813
  };
  private static final double[] BY_STANDARD_DEVIATION = {
    0.016456, 0.007924, 0.006624, 0.004407, 0.003490, 0.002949, 0.002774
  };

  private FalseAlarms() {}

  /**
   * The rate for each result.
   *
   * @param n the size of the baseline, at least 2; below 10 the rate is extrapolated and a little
   *     too small
   * @param dispersion for the median of the moving ranges, the rate of their mean is answered, and
   *     the true one is higher
   */
  static double rate(int n, Dispersion dispersion) {
    double[] rates =
        dispersion == Dispersion.STANDARD_DEVIATION ? BY_STANDARD_DEVIATION : BY_MOVING_RANGE;
    int last = SIZES.length - 1;
    if (n >= SIZES[last]) {
      return KNOWN + (rates[last] - KNOWN) * SIZES[last] / n;
    }
    int right = 1;
    while (SIZES[right] < n) {
      right++;
    }
    double from = 1 / SIZES[right - 1];
    double part = (1.0 / n - from) / (1 / SIZES[right] - from);
    return rates[right - 1] + part * (rates[right] - rates[right - 1]);
  }

  /**
   * The rate for the mean of each subgroup of the usual size.
   *
   * @param sizes of the subgroups of the baseline, one of them at least 2
   * @param dispersion ranges or standard deviations
   */
  static double rate(List<Integer> sizes, Dispersion dispersion) {
    double[] variances =
        sizes.stream()
            .filter(n -> n > 1 && (dispersion != Dispersion.RANGE || n <= MAX_RANGE_SIZE))
            .mapToDouble(n -> dispersion == Dispersion.RANGE ? ofRange(n) : ofDeviation(n))
            .toArray();
    double m = variances.length;
    double variance = StatUtils.sum(variances) / (m * m);
    double multiple = 3 * Math.sqrt(1 + variance) / Math.sqrt(1 + 1.0 / sizes.size());
    return 2 * new TDistribution(1 / (2 * variance) + 0.25).cumulativeProbability(-multiple);
  }

  private static double ofRange(int n) {
    double relative = d3(n) / d2(n);
    return relative * relative;
  }

  private static double ofDeviation(int n) {
    return 1 / (c4(n) * c4(n)) - 1;
  }
}
