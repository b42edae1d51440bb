package org.sapotrace.baseline;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Baseline;

/**
 * What a baseline says about itself: its shape and its order on the scale on which it is judged,
 * the rest in the unit of the results. Where a part cannot be had, it is null. A gap counts for
 * moving ranges and runs only. Of subgroups, shape and order are those of their means, brought to
 * the standard deviation of a single value; distinct values, power and reading step are those of
 * all their values.
 *
 * @param n how many results, at least 2
 * @param distinctValues how many different values, at least 1
 * @param notPositive how many values at or below 0, at least 0
 * @param normality null for fewer than 8 results, or equal ones
 * @param boxCox null where some result is not above 0, or all are almost equal
 * @param autocorrelation null for fewer than 3 results, or equal ones
 * @param resolution null for equal results
 * @param signals run rules that hold inside
 * @param change a change of level inside, whether significant or not
 * @param subgrouping null for single results
 */
public record Diagnostics(
    int n,
    int distinctValues,
    int notPositive,
    @Nullable AndersonDarling normality,
    @Nullable BoxCox boxCox,
    @Nullable Autocorrelation autocorrelation,
    @Nullable Resolution resolution,
    List<InsideSignal> signals,
    Pettitt change,
    @Nullable Subgrouping subgrouping) {

  public Diagnostics {
    signals = List.copyOf(signals);
  }

  /**
   * Examines a baseline.
   *
   * @param baseline in the unit of the results
   * @param plotted the same on the scale on which it is judged
   * @param signals the run rules that hold inside it
   */
  public static Diagnostics of(Baseline baseline, Baseline plotted, List<InsideSignal> signals) {
    double[] values = baseline.singleValues();
    double[] judged = plotted.standardised(StatUtils.mean(plotted.singleValues()));
    int n = judged.length;
    boolean varies = StatUtils.variance(judged) > 0;
    return new Diagnostics(
        n,
        (int) Arrays.stream(values).distinct().count(),
        (int) Arrays.stream(values).filter(x -> x <= 0).count(),
        varies && n >= AndersonDarling.MIN_RESULTS ? AndersonDarling.of(judged) : null,
        BoxCox.of(values),
        varies && n >= 3 ? Autocorrelation.of(judged) : null,
        Resolution.of(baseline),
        signals,
        Pettitt.of(judged),
        Subgrouping.of(plotted));
  }
}
