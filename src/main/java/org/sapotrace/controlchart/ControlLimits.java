package org.sapotrace.controlchart;

import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;

/**
 * Control limits of single results, or of the means of subgroups: what the process, in control, may
 * be expected to show. Not specification limits, which say what the product must meet.
 *
 * <p>A lower limit or lower zone boundary at or below zero, of a quantity that cannot be negative,
 * is none rather than 0: nothing lies beyond it.
 *
 * @param centre the centre line, finite, in the unit of the results
 * @param sigma standard deviation in control of what is judged, finite and above 0, in the same
 *     unit
 * @param nonNegative whether the true quantity cannot be negative. A result still may be, by
 *     measurement error.
 */
public record ControlLimits(double centre, double sigma, boolean nonNegative) {

  /** The least number of results, inclusive, from which limits are estimated. */
  public static final int MIN_BASELINE = 8;

  private static final int ACTION = 3;

  /**
   * Limits from known values.
   *
   * @throws IllegalArgumentException if sigma is not above 0, or so small or large beside the
   *     centre that limits cannot be told from it or are not finite
   */
  public ControlLimits {
    if (!Double.isFinite(centre)) {
      throw new IllegalArgumentException("The centre of control limits must be a finite number.");
    }
    if (!(sigma > 0 && Double.isFinite(sigma))) {
      throw new IllegalArgumentException(
          "Control limits need a finite standard deviation above 0, not "
              + Rounding.of(sigma)
              + ".");
    }
    double upper = centre + ACTION * sigma;
    double lower = centre - ACTION * sigma;
    if (!(centre + sigma > centre && centre - sigma < centre && Double.isFinite(upper - lower))) {
      throw new IllegalArgumentException(
          "A standard deviation of %s is out of proportion to a centre of %s. Give both in one unit."
              .formatted(Rounding.of(sigma), Rounding.of(centre)));
    }
  }

  /**
   * Limits estimated from a baseline without a gap.
   *
   * @param baseline finite results, in order of time
   * @throws IllegalArgumentException as {@link #from(Baseline, Dispersion, boolean)}
   */
  public static ControlLimits from(double[] baseline, Dispersion dispersion, boolean nonNegative) {
    return from(Baseline.of(baseline), dispersion, nonNegative);
  }

  /**
   * Limits estimated from a baseline: centre = mean of the results, sigma as the dispersion says.
   *
   * @param baseline at least {@value #MIN_BASELINE} results
   * @throws IllegalArgumentException for fewer results, a dispersion that needs subgroups, or an
   *     estimated sigma of 0
   */
  public static ControlLimits from(Baseline baseline, Dispersion dispersion, boolean nonNegative) {
    if (baseline.size() < MIN_BASELINE) {
      throw new IllegalArgumentException(
          ("Control limits need a baseline of at least %d results, not %d. Record more, or give"
                  + " centre and sigma.")
              .formatted(MIN_BASELINE, baseline.size()));
    }
    double sigma = dispersion.sigma(baseline);
    if (sigma == 0) {
      throw new IllegalArgumentException(
          ("The results of the baseline differ too little: their standard deviation by %s comes out"
                  + " as 0. Read in finer steps or titrate more sample, take a longer baseline, or"
                  + " give centre and sigma.")
              .formatted(dispersion.id()));
    }
    return new ControlLimits(StatUtils.mean(baseline.values()), sigma, nonNegative);
  }

  /**
   * Limits estimated from subgroups, whose sizes may differ: centre = mean of all values, sigma =
   * by how far values scatter within the subgroups, as the dispersion says. They are those of
   * single values; for means see {@link #ofMeans}.
   *
   * @param baseline at least {@value #MIN_BASELINE} subgroups, one of them of two values or more
   * @throws IllegalArgumentException for fewer, a dispersion of single results, or an estimated
   *     sigma of 0
   */
  public static ControlLimits fromSubgroups(
      Baseline baseline, Dispersion dispersion, boolean nonNegative) {
    if (baseline.size() < MIN_BASELINE) {
      throw new IllegalArgumentException(
          ("Control limits need a baseline of at least %d subgroups, not %d. Record more, or give"
                  + " centre and sigma.")
              .formatted(MIN_BASELINE, baseline.size()));
    }
    double sigma = dispersion.sigmaWithin(baseline);
    if (sigma == 0) {
      throw new IllegalArgumentException(
          ("The values within the subgroups of the baseline differ too little: their standard"
                  + " deviation by %s comes out as 0. Read in finer steps, take a longer baseline,"
                  + " or give centre and sigma.")
              .formatted(dispersion.id()));
    }
    return new ControlLimits(StatUtils.mean(baseline.singleValues()), sigma, nonNegative);
  }

  /**
   * The limits of means of n values, where these are the limits of single values: sigma becomes
   * sigma/√n.
   *
   * @param n how many values, at least 1
   */
  public ControlLimits ofMeans(int n) {
    return n == 1 ? this : new ControlLimits(centre, sigma / Math.sqrt(n), nonNegative);
  }

  /** The upper control limit: centre + 3 sigma. */
  public double upper() {
    return above(ACTION);
  }

  /** The lower control limit: centre - 3 sigma; null for none. */
  public @Nullable Double lower() {
    return below(ACTION);
  }

  /**
   * An upper zone boundary: centre + k sigma.
   *
   * @param k 1, 2 or 3
   */
  public double above(int k) {
    return centre + k * sigma;
  }

  /**
   * A lower zone boundary: centre - k sigma; null for none.
   *
   * @param k 1, 2 or 3
   */
  public @Nullable Double below(int k) {
    double boundary = floor(k);
    return boundary == Double.NEGATIVE_INFINITY ? null : boundary;
  }

  /** As {@link #below}, with negative infinity for none. */
  double floor(int k) {
    double boundary = centre - k * sigma;
    return nonNegative && boundary <= 0 ? Double.NEGATIVE_INFINITY : boundary;
  }

  /**
   * How many standard deviations a result lies above the centre; negative below it. For people:
   * rules compare the result itself with the limits, so that rounding cannot put it on the other
   * side.
   */
  public double z(double x) {
    return (x - centre) / sigma;
  }
}
