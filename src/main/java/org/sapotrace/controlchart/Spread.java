package org.sapotrace.controlchart;

import org.jspecify.annotations.Nullable;

/**
 * What says how far the values of a subgroup scatter. Factors as {@link LimitFactor} defines them.
 */
public enum Spread {
  /**
   * The range, for 2 to 25 values: centre d2 sigma, limits D1 sigma and D2 sigma. A moving range is
   * that of two.
   */
  RANGE {
    @Override
    public double of(Subgroup subgroup) {
      return subgroup.range();
    }

    @Override
    public boolean hasLimits(int n) {
      return n > 1 && n <= ControlChartConstants.MAX_RANGE_SIZE;
    }

    @Override
    public Limits limits(double sigma, int n) {
      double centre = ControlChartConstants.d2(n);
      return Limits.of(sigma, centre, LimitFactor.D2.of(n), LimitFactor.D1.of(n));
    }
  },
  /** The standard deviation s, for 2 values or more: centre c4 sigma, limits B5 and B6 sigma. */
  STANDARD_DEVIATION {
    @Override
    public double of(Subgroup subgroup) {
      return subgroup.standardDeviation();
    }

    @Override
    public boolean hasLimits(int n) {
      return n > 1;
    }

    @Override
    public Limits limits(double sigma, int n) {
      double centre = ControlChartConstants.c4(n);
      return Limits.of(sigma, centre, LimitFactor.B6.of(n), LimitFactor.B5.of(n));
    }
  };

  /**
   * Control limits three standard deviations wide.
   *
   * @param centre what is expected in control
   * @param upper the upper control limit
   * @param lower the lower control limit; null for none, where it would be at or below zero
   */
  public record Limits(double centre, double upper, @Nullable Double lower) {

    private static Limits of(double sigma, double centre, double upper, double lower) {
      return new Limits(centre * sigma, upper * sigma, lower > 0 ? (Double) (lower * sigma) : null);
    }
  }

  /** The figure of a subgroup; NaN for a single value. */
  public abstract double of(Subgroup subgroup);

  /** Whether there are limits for subgroups of n values. */
  public abstract boolean hasLimits(int n);

  /**
   * The limits for subgroups of n values.
   *
   * @param sigma standard deviation of a single value, above 0
   * @throws IllegalArgumentException for an n without limits
   */
  public abstract Limits limits(double sigma, int n);
}
