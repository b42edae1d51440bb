package org.sapotrace.controlchart;

import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;

/**
 * An exponentially weighted moving average of single results, and its control limits.
 *
 * <p>From the centre line z_0 on, z_i = λ x_i + (1 - λ) z_(i-1). Its limits are exact at each
 * result: centre ± L σ √(λ/(2 - λ) (1 - (1 - λ)^(2i))), with i counting the results since the
 * average was started. A small λ finds small lasting shifts; λ = 1 with L = 3 is the chart of
 * single results.
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
   * λ = 0.1 and L = 2.9, which raises a false alarm about as seldom as limits of 3 sigma on single
   * results do.
   */
  public static final Ewma DEFAULT = new Ewma(0.1, 2.9);

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
          "The weight lambda of an EWMA must be from 0.001 to 1, not %s; 0.1 finds small lasting shifts."
              .formatted(Rounding.of(lambda)));
    }
    if (!(width > 0 && width <= MOST_WIDTH)) {
      throw new IllegalArgumentException(
          "The width of EWMA limits must be above 0 and at most 6 standard deviations, not %s; 2.9 goes with a lambda of 0.1."
              .formatted(Rounding.of(width)));
    }
  }

  /** The settings in words, such as {@code weight 0.1, width 2.9}. */
  public String settings() {
    return "weight %s, width %s".formatted(Rounding.of(lambda), Rounding.of(width));
  }

  /** The limits at the result after which the average has this state. */
  public Limits limits(ControlLimits limits, EwmaState state) {
    double floor = floor(limits, state.power());
    return new Limits(
        limits.centre(),
        limits.centre() + reach(limits, state.power()),
        floor == Double.NEGATIVE_INFINITY ? null : (Double) floor);
  }

  /**
   * How far the limits lie from the centre.
   *
   * @param power (1 - λ)^(2i)
   */
  double reach(ControlLimits limits, double power) {
    return width * limits.sigma() * Math.sqrt(lambda / (2 - lambda) * (1 - power));
  }

  /** The lower limit, with negative infinity for none. */
  double floor(ControlLimits limits, double power) {
    double lower = limits.centre() - reach(limits, power);
    return limits.nonNegative() && lower <= 0 ? Double.NEGATIVE_INFINITY : lower;
  }
}
