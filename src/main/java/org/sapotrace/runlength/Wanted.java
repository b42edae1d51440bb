package org.sapotrace.runlength;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.solvers.AllowedSolution;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.measure.Rounding;

/**
 * What is wanted of a chart: that false alarms are rare, and that a shift is found soon.
 *
 * @param inControl the least average run length without a shift, from {@value #LEAST_RUN} to
 *     {@value #LONGEST_RUN} results inclusive
 * @param shift the smallest shift of the mean worth finding, in sigma, from {@value #LEAST_SHIFT}
 *     to {@value #LARGEST_SHIFT} inclusive
 */
public record Wanted(double inControl, double shift) {

  static final double LEAST_RUN = 10;
  static final double LONGEST_RUN = 1e6;
  static final double LEAST_SHIFT = 0.1;
  static final double LARGEST_SHIFT = 6;

  // Control limits alone run 370 results; up to here they leave room for an EWMA beside them.
  private static final double ROOM_BESIDE_LIMITS = 300;
  private static final double[] LAMBDAS = {0.05, 0.1, 0.2, 0.3};
  // Between these widths an EWMA runs from less than the least to more than the longest run.
  private static final double NARROWEST = 0.3;
  private static final double WIDEST = 6;
  // Guesses to begin with, of a width or a decision value and of what exact limits add.
  private static final double USUAL = 3;
  private static final double A_LITTLE = 0.02;
  private static final double ROUGHLY = 1e-3;
  private static final double CLOSELY = 1e-9;
  private static final int MOST_ORDER = 5;
  private static final int MOST_EVALUATIONS = 100;
  private static final Set<RunRule> LIMITS = Set.of(RunRule.BEYOND_LIMITS);

  /**
   * @throws IllegalArgumentException for either out of range
   */
  public Wanted {
    if (!(inControl >= LEAST_RUN && inControl <= LONGEST_RUN)) {
      throw new IllegalArgumentException(
          "That is one false alarm in %s results. Ask for one in 10 to one in a million."
              .formatted(Rounding.of(inControl)));
    }
    if (!(shift >= LEAST_SHIFT && shift <= LARGEST_SHIFT)) {
      throw new IllegalArgumentException(
          "The shift is %s standard deviations. Settings are suggested for shifts from 0.1 to 6."
              .formatted(Rounding.of(shift)));
    }
  }

  /**
   * The least average run length of a chart with at most so many false alarms a year.
   *
   * @param falseAlarms above 0
   * @param resultsPerDay above 0
   */
  public static double inControl(double falseAlarms, double resultsPerDay) {
    // Results a year divided by alarms a year, as alarms are results divided by a run.
    return AverageRunLength.signalsPerYear(falseAlarms, resultsPerDay);
  }

  /**
   * Charts whose false alarms are as rare as wanted, those that find the shift soonest first: an
   * EWMA of several weights, beside control limits where these leave room for it; a CUSUM with half
   * the shift as its reference value; and control limits alone. Widths and decision values are
   * rounded up to hundredths.
   */
  public List<Suggestion> suggestions() {
    List<Detectors> charts = new ArrayList<>();
    for (double lambda : LAMBDAS) {
      Ewma ewma = new Ewma(lambda, roundedUp(width(lambda)));
      charts.add(new Detectors(isLimited() ? LIMITS : Set.of(), ewma, null));
    }
    decision()
        .ifPresent(
            decision ->
                charts.add(
                    new Detectors(Set.of(), null, new Cusum(shift / 2, roundedUp(decision), 0))));
    charts.add(new Detectors(LIMITS, null, null));
    return charts.stream()
        .map(chart -> Suggestion.of(chart, shift))
        .filter(suggestion -> suggestion.inControl() >= inControl)
        .sorted(Comparator.comparing(Suggestion::atShift))
        .toList();
  }

  /** The width of an EWMA's limits with which the chart runs as long as wanted. */
  double width(double lambda) {
    // Limits that are as wide from the start as in the long run are quickly computed; exact ones
    // are
    // narrower there, and so have to be a little wider altogether.
    double settled =
        root(at -> equation(lambda, at).atSettled(0)[0], NARROWEST, WIDEST, USUAL, ROUGHLY);
    return root(
        at -> equation(lambda, at).at(0)[0],
        settled - ROUGHLY,
        WIDEST,
        settled + A_LITTLE,
        ROUGHLY);
  }

  private EwmaEquation equation(double lambda, double width) {
    return new EwmaEquation(new Ewma(lambda, width), isLimited());
  }

  /** The decision value of a CUSUM with which it runs as long as wanted; empty where none does. */
  Optional<Double> decision() {
    UnivariateFunction run = decision -> cusum(decision).at(0)[0];
    boolean exists =
        run.value(CLOSELY) <= inControl && run.value(ChartDesign.MAX_DECISION) >= inControl;
    return exists
        ? Optional.of(root(run, CLOSELY, ChartDesign.MAX_DECISION, USUAL, CLOSELY))
        : Optional.empty();
  }

  private CusumEquation cusum(double decision) {
    return new CusumEquation(new Cusum(shift / 2, decision, 0));
  }

  /** Whether false alarms beyond control limits may come on top of those of an EWMA. */
  private boolean isLimited() {
    return inControl <= ROOM_BESIDE_LIMITS;
  }

  /**
   * Where a run is as long as wanted, probably near to a guess; its logarithm is nearly straight.
   */
  private double root(
      UnivariateFunction run, double from, double to, double guess, double accuracy) {
    return new BracketingNthOrderBrentSolver(accuracy, MOST_ORDER)
        .solve(
            MOST_EVALUATIONS,
            at -> Math.log(run.value(at) / inControl),
            from,
            to,
            guess,
            AllowedSolution.RIGHT_SIDE);
  }

  private static double roundedUp(double setting) {
    return Math.ceil(setting * 100) / 100;
  }
}
