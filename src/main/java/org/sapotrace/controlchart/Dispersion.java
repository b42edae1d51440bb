package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.hipparchus.special.Erf;
import org.hipparchus.stat.StatUtils;

/**
 * How the standard deviation of a process in control is estimated from its results, given in order
 * of time. Each estimator is unbiased, or consistent for the median, if the results are independent
 * and normal. Means and variances are taken in two passes with a correction, so that a large level
 * beside a small spread costs no digits.
 *
 * <p>Source: ISO 7870-2; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.
 */
public enum Dispersion {
  /** Mean of the moving ranges |x_i - x_(i-1)|, divided by d2(2) = 2/√π = 1.12837917. */
  MOVING_RANGE("moving-range") {
    @Override
    double estimate(Baseline baseline) {
      return StatUtils.mean(baseline.movingRanges()) / ControlChartConstants.d2(2);
    }
  },
  /**
   * Median of the moving ranges, divided by the median of |X1 - X2| for standard deviation 1, √2
   * Φ⁻¹(3/4) = 0.95387255. Not moved by a few wild results.
   */
  MEDIAN_MOVING_RANGE("median-moving-range") {
    @Override
    double estimate(Baseline baseline) {
      return StatUtils.percentile(baseline.movingRanges(), 50) / MEDIAN_OF_MOVING_RANGE;
    }
  },
  /** Standard deviation s of all results (divisor n - 1), divided by c4(n). */
  STANDARD_DEVIATION("standard-deviation") {
    @Override
    double estimate(Baseline baseline) {
      return Math.sqrt(StatUtils.variance(baseline.values()))
          / ControlChartConstants.c4(baseline.size());
    }
  },
  /** Mean range within subgroups, divided by d2(n). Needs subgroups; refuses single results. */
  RANGE("range") {
    @Override
    double estimate(Baseline baseline) {
      throw new IllegalArgumentException(NEEDS_SUBGROUPS);
    }
  };

  private static final String NEEDS_SUBGROUPS =
      "The range is taken within subgroups, and these are single results. Use moving-range, median-moving-range or standard-deviation.";

  // √2 Φ⁻¹(3/4), where Φ⁻¹(p) = √2 erf⁻¹(2p - 1)
  private static final double MEDIAN_OF_MOVING_RANGE = 2 * Erf.erfInv(0.5);

  private final String id;

  Dispersion(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code moving-range}. */
  public String id() {
    return id;
  }

  /**
   * The estimator with this name in the interface.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Dispersion named(String id) {
    for (Dispersion dispersion : values()) {
      if (dispersion.id.equals(id)) {
        return dispersion;
      }
    }
    throw new IllegalArgumentException(
        "There is no dispersion \"%s\". Use one of %s."
            .formatted(
                id, Arrays.stream(values()).map(Dispersion::id).collect(Collectors.joining(", "))));
  }

  /**
   * This estimator, which single results must be enough for.
   *
   * @throws IllegalArgumentException for {@link #RANGE}
   */
  public Dispersion ofSingleResults() {
    if (this == RANGE) {
      throw new IllegalArgumentException(NEEDS_SUBGROUPS);
    }
    return this;
  }

  /**
   * Estimates sigma from single results without a gap.
   *
   * @param values at least 2 finite results, in order of time
   * @return as {@link #sigma(Baseline)}
   * @throws IllegalArgumentException as {@link Baseline#of} and {@link #sigma(Baseline)}
   */
  public double sigma(double[] values) {
    return sigma(Baseline.of(values));
  }

  /**
   * Estimates sigma from single results.
   *
   * @return at least 0, in the unit of the results; 0 if they are all equal, and for the median
   *     already if most moving ranges are 0
   * @throws IllegalArgumentException for fewer than 2 results, or none that follow each other, and
   *     always for {@link #RANGE}
   */
  public double sigma(Baseline baseline) {
    if (baseline.size() < 2) {
      throw new IllegalArgumentException(
          "A standard deviation needs at least 2 results, not " + baseline.size() + ".");
    }
    if (baseline.movingRanges().length == 0) {
      throw new IllegalArgumentException(
          "A baseline needs results that follow each other. Leave out fewer of them.");
    }
    return estimate(baseline);
  }

  abstract double estimate(Baseline baseline);
}
