package org.sapotrace.controlchart;

import org.jspecify.annotations.Nullable;

/**
 * How results get onto the scale of a chart, and figures of the chart back into the unit of the
 * results.
 *
 * @param scale the scale
 * @param lambda the power of a Box-Cox scale, finite; null for the others
 */
public record Plotting(Scale scale, @Nullable Double lambda) {

  /** Results as they are. */
  public static final Plotting LINEAR = new Plotting(Scale.LINEAR, null);

  /** Natural logarithms. */
  public static final Plotting LOG = new Plotting(Scale.LOG, null);

  /**
   * How far below the centre a result counts that has no place on the scale, in standard
   * deviations: beyond the lower control limit, and yet a weight that averages and sums can bear.
   */
  public static final int BELOW_THE_SCALE = 4;

  /**
   * Checks that a power goes with the scale.
   *
   * @throws IllegalArgumentException if a Box-Cox scale has no finite power, or another has one
   */
  public Plotting {
    if ((scale == Scale.BOX_COX) != (lambda != null)) {
      throw new IllegalArgumentException("A power goes with a Box-Cox scale and with no other.");
    }
    if (lambda != null) {
      lambda = new PowerTransform(lambda).lambda();
    }
  }

  /** A Box-Cox scale. */
  public static Plotting boxCox(double lambda) {
    return new Plotting(Scale.BOX_COX, lambda);
  }

  /** Whether the result has a place on the scale; only results above 0 have one unless linear. */
  public boolean takes(double x) {
    return scale == Scale.LINEAR || x > 0;
  }

  /** Whether all values of a subgroup have a place on the scale. */
  public boolean takes(Subgroup subgroup) {
    return subgroup.values().stream().allMatch(this::takes);
  }

  /**
   * A result on the scale.
   *
   * @throws IllegalArgumentException if it has no place there
   */
  public double plotted(double x) {
    return scale == Scale.LINEAR ? x : transform().apply(x);
  }

  /**
   * A subgroup with each of its values on the scale.
   *
   * @throws IllegalArgumentException if one has no place there
   */
  public Subgroup plotted(Subgroup subgroup) {
    return scale == Scale.LINEAR
        ? subgroup
        : new Subgroup(subgroup.values().stream().map(this::plotted).toList());
  }

  /**
   * A result as it is judged: the mean of its values on the scale, or {@value #BELOW_THE_SCALE}
   * standard deviations below the centre where one of them has no place there.
   *
   * @param limits on the scale, for means of its size
   */
  public double judged(Subgroup subgroup, ControlLimits limits) {
    return takes(subgroup)
        ? plotted(subgroup).mean()
        : limits.centre() - BELOW_THE_SCALE * limits.sigma();
  }

  /**
   * A figure of the chart, such as a limit, in the unit of the results.
   *
   * @param y on the scale; null for none
   * @return null for none, as where no result however small or large lies there
   */
  public @Nullable Double shown(@Nullable Double y) {
    if (y == null || scale == Scale.LINEAR) {
      return y;
    }
    double x = transform().inverse(y);
    return Double.isFinite(x) ? (Double) x : null;
  }

  /**
   * A result in its unit, as it compares with figures of the chart there: on a log scale the
   * geometric mean of its values, on a Box-Cox scale their power mean; their arithmetic mean where
   * one of them has no place on the scale.
   */
  public double shownMean(Subgroup subgroup) {
    boolean isPlain = subgroup.size() == 1 || scale == Scale.LINEAR || !takes(subgroup);
    Double mean = isPlain ? null : shown((Double) plotted(subgroup).mean());
    return mean == null ? subgroup.mean() : mean;
  }

  /**
   * How much the scale moves with a result: dy/dx = x^(lambda - 1), 1/x on a log scale.
   *
   * @param x with a place on the scale
   */
  public double slope(double x) {
    return scale == Scale.LINEAR ? 1 : Math.pow(x, transform().lambda() - 1);
  }

  private PowerTransform transform() {
    return new PowerTransform(lambda == null ? 0 : lambda);
  }
}
