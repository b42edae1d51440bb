package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.hipparchus.special.Erf;
import org.hipparchus.stat.StatUtils;

/**
 * How the standard deviation of a process in control is estimated: from single results in order of
 * time, or from how far values scatter within subgroups. Each estimator is unbiased, or consistent
 * for the median, if the results are independent and normal. Means and variances are taken in two
 * passes with a correction, so that a large level beside a small spread costs no digits.
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
  /**
   * Of single results, the standard deviation s of all of them (divisor n - 1), divided by c4(n).
   * Of subgroups, the mean of s/c4(n) of each, with its own n.
   */
  STANDARD_DEVIATION("standard-deviation") {
    @Override
    double estimate(Baseline baseline) {
      return Math.sqrt(StatUtils.variance(baseline.values()))
          / ControlChartConstants.c4(baseline.size());
    }

    @Override
    double within(Subgroup subgroup) {
      return subgroup.standardDeviation() / ControlChartConstants.c4(subgroup.size());
    }
  },
  /**
   * The mean of R/d2(n) of each subgroup of up to 25 values, with its own range R and n. Refuses
   * single results.
   */
  RANGE("range") {
    @Override
    double estimate(Baseline baseline) {
      throw new IllegalArgumentException(NEEDS_SUBGROUPS);
    }

    @Override
    double within(Subgroup subgroup) {
      return subgroup.range() / ControlChartConstants.d2(subgroup.size());
    }
  };

  private static final String NEEDS_SUBGROUPS =
      "The range is taken within subgroups, and these are single results. Use moving-range, median-moving-range or standard-deviation.";

  private static final String NEEDS_SINGLE_RESULTS =
      "Moving ranges lead from one single result to the next, and these are subgroups. Use standard-deviation or range.";

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
   * This estimator, which must serve subgroups of that size.
   *
   * @param size 1 for single results
   * @throws IllegalArgumentException for {@link #RANGE} of single results or of more than 25
   *     values, and for moving ranges of subgroups
   */
  public Dispersion forSubgroupsOf(int size) {
    if (size == 1 && this == RANGE) {
      throw new IllegalArgumentException(NEEDS_SUBGROUPS);
    }
    if (size > 1 && !isWithin()) {
      throw new IllegalArgumentException(NEEDS_SINGLE_RESULTS);
    }
    if (size > 1 && !serves(size)) {
      throw new IllegalArgumentException(
          "Ranges are taken of %d values at most. Use standard-deviation for subgroups of %d."
              .formatted(ControlChartConstants.MAX_RANGE_SIZE, size));
    }
    return this;
  }

  private boolean isWithin() {
    return this == RANGE || this == STANDARD_DEVIATION;
  }

  /** Whether a subgroup of that size tells how far its values scatter. */
  private boolean serves(int size) {
    return size > 1 && (this != RANGE || size <= ControlChartConstants.MAX_RANGE_SIZE);
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
   * Estimates sigma from single results; of subgroups, from their means.
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

  /**
   * Estimates sigma from how far values scatter within subgroups: the mean of what each subgroup
   * estimates that has two values or more.
   *
   * @return at least 0, in the unit of the values
   * @throws IllegalArgumentException where none has, and always for moving ranges
   */
  public double sigmaWithin(Baseline baseline) {
    double[] estimates =
        baseline.subgroups().stream()
            .filter(subgroup -> serves(subgroup.size()))
            .mapToDouble(this::within)
            .toArray();
    if (estimates.length == 0) {
      throw new IllegalArgumentException(
          "No subgroup of the baseline has two values or more%s, so that none shows how far values scatter within it. Record subgroups, or set chart.subgroupSize to 1."
              .formatted(this == RANGE ? " up to " + ControlChartConstants.MAX_RANGE_SIZE : ""));
    }
    return StatUtils.mean(estimates);
  }

  abstract double estimate(Baseline baseline);

  /** What one subgroup of a size that it serves estimates. */
  double within(Subgroup subgroup) {
    throw new IllegalArgumentException(NEEDS_SINGLE_RESULTS);
  }
}
