package org.sapotrace.baseline;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.LimitFactor;

/**
 * Whether the steps in which results were read are fine enough for a chart of moving ranges: more
 * than three values of the range must be possible within its limit.
 *
 * <p>Source: D. J. Wheeler, D. S. Chambers, Understanding Statistical Process Control, 2nd edition,
 * SPC Press 1992, section 9.1 (inadequate measurement units).
 *
 * @param step the smallest difference between two results that are not equal, above 0, in their
 *     unit
 * @param possibleRanges how many values of the moving range lie within its upper limit, 0 among
 *     them: floor(D4 MR̄ / step) + 1, at least 1
 */
public record Resolution(double step, long possibleRanges) {

  private static final int TOO_FEW = 3;

  /** Computed results that differ by less than this part of their size differ by rounding only. */
  private static final double ROUNDING = 1e-12;

  /**
   * Of a baseline.
   *
   * @return null where all are equal, so that they show no step
   */
  public static @Nullable Resolution of(Baseline baseline) {
    double step = step(baseline.values());
    if (step == Double.POSITIVE_INFINITY) {
      return null;
    }
    // D4 MR̄ = D2 sigma, where sigma = MR̄/d2.
    double limit = LimitFactor.D2.of(2) * Dispersion.MOVING_RANGE.sigma(baseline);
    return new Resolution(step, (long) Math.floor(limit / step) + 1);
  }

  /** Whether the step is fine enough. */
  public boolean adequate() {
    return possibleRanges > TOO_FEW;
  }

  /**
   * The smallest step, taken between the decimal numbers that people typed: the difference of 41.3
   * and 41.2 is 0.1 and not 0.0999999999999943.
   */
  private static double step(double[] values) {
    double negligible =
        ROUNDING * Math.max(Math.abs(StatUtils.min(values)), Math.abs(StatUtils.max(values)));
    List<BigDecimal> sorted = Arrays.stream(values).sorted().mapToObj(BigDecimal::valueOf).toList();
    double step = Double.POSITIVE_INFINITY;
    for (int i = 1; i < sorted.size(); i++) {
      double gap = sorted.get(i).subtract(sorted.get(i - 1)).doubleValue();
      step = gap > negligible ? Math.min(step, gap) : step;
    }
    return step;
  }
}
