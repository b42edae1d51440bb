package org.sapotrace.controlchart;

import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;

/**
 * An exponentially weighted moving average of results, and its control limits.
 *
 * <p>From the centre line z_0 on, z_i = λ x_i + (1 - λ) z_(i-1). Its limits are exact at each
 * result: centre ± L σ √(λ/(2 - λ) (1 - (1 - λ)^(2i))), with i counting the results since the
 * average was started. Where a result is the mean of n_i values, they are centre ± L σ √v_i with
 * v_i = λ²/n_i + (1 - λ)² v_(i-1), v_0 = 0, σ that of a single value. A small λ finds small lasting
 * shifts; λ = 1 with L = 3 is the chart of single results.
 *
 * <p>Source: S. W. Roberts, Control chart tests based on geometric moving averages, Technometrics 1
 * (1959) 239, doi:10.1080/00401706.1959.10489860; NIST/SEMATECH e-Handbook of Statistical Methods,
 * 6.3.2.4, which gives the limits for large i.
 *
 * @param lambda λ, the weight of the latest result, from {@value #LEAST_WEIGHT} to 1
 * @param width L, the distance of the limits in standard deviations of the average, above 0 and at
 *     most 6
 */
public record Ewma(double lambda, double width) {

  /**
   * λ = 0.2 and L = 2.7. Beside limits of 3 sigma from 45 results it raises a false alarm about
   * once in 70 results; what that gains, docs/detection.md says.
   */
  public static final Ewma DEFAULT = new Ewma(0.2, 2.7);

  /** With less, the first thousand results hardly count: an average that sees nothing. */
  static final double LEAST_WEIGHT = 0.001;

  private static final double MOST_WIDTH = 6;

  /**
   * The limits at one result.
   *
   * @param lower null for none, as for {@link ControlLimits#lower}
   */
  public record Limits(double centre, double upper, @Nullable Double lower) {}

  /**
   * Checks the settings.
   *
   * @throws IllegalArgumentException for settings out of range
   */
  public Ewma {
    if (!(lambda >= LEAST_WEIGHT && lambda <= 1)) {
      throw new IllegalArgumentException(
          "The weight lambda of an EWMA must be from 0.001 to 1, not %s; 0.2 finds shifts that grow or last."
              .formatted(Rounding.of(lambda)));
    }
    if (!(width > 0 && width <= MOST_WIDTH)) {
      throw new IllegalArgumentException(
          "The width of EWMA limits must be above 0 and at most 6 standard deviations, not %s; 2.7 goes with a lambda of 0.2."
              .formatted(Rounding.of(width)));
    }
  }

  /** The settings in words, such as {@code weight 0.2, width 2.7}. */
  public String settings() {
    return "weight %s, width %s".formatted(Rounding.of(lambda), Rounding.of(width));
  }

  /**
   * The limits at the result after which the average has this state.
   *
   * @param limits of single values
   */
  public Limits limits(ControlLimits limits, EwmaState state) {
    double floor = floor(limits, state);
    return new Limits(
        limits.centre(),
        limits.centre() + reach(limits, state),
        floor == Double.NEGATIVE_INFINITY ? null : (Double) floor);
  }

  /** How far the limits lie from the centre. */
  double reach(ControlLimits limits, EwmaState state) {
    return width * limits.sigma() * Math.sqrt(variance(state));
  }

  /** v_i, the variance of the average in parts of that of a single value. */
  double variance(EwmaState state) {
    Double variance = state.variance();
    return variance == null ? lambda / (2 - lambda) * (1 - state.power()) : variance;
  }

  /** The lower limit, with negative infinity for none. */
  double floor(ControlLimits limits, EwmaState state) {
    double lower = limits.centre() - reach(limits, state);
    return limits.nonNegative() && lower <= 0 ? Double.NEGATIVE_INFINITY : lower;
  }
}
