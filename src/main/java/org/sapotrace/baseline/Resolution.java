package org.sapotrace.baseline;

import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlChartConstants;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.LimitFactor;
import org.sapotrace.controlchart.Subgroup;

/**
 * Whether the steps in which results were read are fine enough for a chart of ranges: more than
 * three values of the range of two, and more than four of the range of more, must be possible
 * within its limit. Either means that the step is about one standard deviation at most.
 *
 * <p>Source: D. J. Wheeler, D. S. Chambers, Understanding Statistical Process Control, 2nd edition,
 * SPC Press 1992, section 9.1 (inadequate measurement units; the four from memory).
 *
 * @param step the smallest difference between two results that are not equal, above 0, in their
 *     unit
 * @param possibleRanges how many values of the range lie within its upper limit, 0 among them:
 *     floor(D4 MR̄ / step) + 1 for moving ranges, floor(D2 sigma / step) + 1 for subgroups; at
 *     least 1
 * @param size of how many values the range is: 2 for moving ranges; of subgroups the smallest of
 *     two values or more, up to 25
 */
public record Resolution(double step, long possibleRanges, int size) {

  private static final int TOO_FEW_OF_TWO = 3;
  private static final int TOO_FEW_OF_MORE = 4;

  /** Computed results that differ by less than this part of their size differ by rounding only. */
  private static final double ROUNDING = 1e-12;

  /**
   * Of a baseline.
   *
   * @return null where all are equal, so that they show no step
   */
  public static @Nullable Resolution of(Baseline baseline) {
    double step = step(baseline.singleValues());
    if (step == Double.POSITIVE_INFINITY) {
      return null;
    }
    int size = smallest(baseline);
    // D4 MR̄ = D2 sigma, where sigma = MR̄/d2.
    double sigma =
        size == 1
            ? Dispersion.MOVING_RANGE.sigma(baseline)
            : Dispersion.STANDARD_DEVIATION.sigmaWithin(baseline);
    int ofRange = Math.max(2, Math.min(ControlChartConstants.MAX_RANGE_SIZE, size));
    double limit = LimitFactor.D2.of(ofRange) * sigma;
    return new Resolution(step, (long) Math.floor(limit / step) + 1, ofRange);
  }

  /** The smallest subgroup of two values or more; 1 where there is none. */
  private static int smallest(Baseline baseline) {
    return baseline.subgroups().stream()
        .mapToInt(Subgroup::size)
        .filter(size -> size > 1)
        .min()
        .orElse(1);
  }

  /** Whether the step is fine enough. */
  public boolean adequate() {
    return possibleRanges > (size == 2 ? TOO_FEW_OF_TWO : TOO_FEW_OF_MORE);
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
