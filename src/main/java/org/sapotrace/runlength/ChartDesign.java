package org.sapotrace.runlength;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.measure.Rounding;

/**
 * What is to raise signals on a chart of single results with known limits, and how long the chart
 * runs before it does. Exact for run rules but trends and alternations, for control limits with an
 * alarm of the moving range, for an EWMA with or without control limits, and for a CUSUM; any other
 * combination is simulated.
 *
 * @param detectors run rules, EWMA and CUSUM
 * @param movingRange whether a moving range beyond its upper limit signals, too
 */
public record ChartDesign(Detectors detectors, boolean movingRange) {

  /** The largest reference value of a CUSUM, inclusive, in sigma. */
  public static final double MAX_REFERENCE = 3;

  /** The largest decision value of a CUSUM, inclusive, in sigma. */
  public static final double MAX_DECISION = 20;

  /**
   * @throws IllegalArgumentException where nothing raises signals, or a CUSUM is so wide that it
   *     practically never does
   */
  public ChartDesign {
    Cusum cusum = detectors.cusum();
    if (!movingRange && detectors.rules().isEmpty() && detectors.ewma() == null && cusum == null) {
      throw new IllegalArgumentException(
          "Nothing here raises a signal. Name at least one of rules, ewma, cusum and movingRange.");
    }
    if (cusum != null
        && !(cusum.reference() <= MAX_REFERENCE && cusum.decision() <= MAX_DECISION)) {
      throw new IllegalArgumentException(
          "A CUSUM with a reference value of %s and a decision value of %s practically never signals. Take at most 3 and 20 standard deviations."
              .formatted(Rounding.of(cusum.reference()), Rounding.of(cusum.decision())));
    }
  }

  /**
   * Average run lengths at shifts of the mean.
   *
   * @param shifts distances from the centre in sigma, finite
   * @throws IllegalArgumentException where signals are too rare to be simulated
   */
  public List<AverageRunLength> averageRunLengths(double... shifts) {
    MeanRunLength exact = exact();
    if (exact == null) {
      return Simulation.of(this, shifts);
    }
    RunLengthMethod method =
        exact instanceof RunRuleChain
            ? RunLengthMethod.MARKOV_CHAIN
            : RunLengthMethod.INTEGRAL_EQUATION;
    double[] means = exact.at(shifts);
    List<AverageRunLength> all = new ArrayList<>();
    for (int i = 0; i < shifts.length; i++) {
      all.add(new AverageRunLength(shifts[i], means[i], method, null));
    }
    return all;
  }

  /** The exact computation for this design; null where there is none. */
  private @Nullable MeanRunLength exact() {
    Set<RunRule> rules = detectors.rules();
    Ewma ewma = detectors.ewma();
    Cusum cusum = detectors.cusum();
    boolean limited = rules.contains(RunRule.BEYOND_LIMITS);
    boolean limitsAtMost = rules.size() == (limited ? 1 : 0);
    boolean rulesAlone = ewma == null && cusum == null;
    if (rulesAlone && !movingRange) {
      return RunRuleChain.holds(rules) ? RunRuleChain.of(rules) : null;
    }
    if (!limitsAtMost) {
      return null;
    }
    if (movingRange) {
      return rulesAlone ? MovingRangeEquation.of(limited) : null;
    }
    if (ewma == null) {
      return cusum != null && !limited ? new CusumEquation(cusum) : null;
    }
    boolean isQuick = cusum == null && ewma.lambda() >= EwmaEquation.LEAST_LAMBDA;
    return isQuick ? new EwmaEquation(ewma, limited) : null;
  }
}
