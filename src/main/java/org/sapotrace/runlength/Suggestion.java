package org.sapotrace.runlength;

import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.measure.Rounding;

/**
 * A chart that runs as wanted.
 *
 * @param detectors what raises its signals
 * @param inControl its average run length without a shift
 * @param atShift its average run length at the shift that is to be found, if the shift comes when
 *     the limits of an EWMA have long settled and its average, or the sums of a CUSUM, lie at rest:
 *     the narrow limits just after a start would flatter a small lambda
 */
public record Suggestion(Detectors detectors, double inControl, double atShift) {

  static Suggestion of(Detectors detectors, double shift) {
    ChartDesign design = new ChartDesign(detectors, false);
    Ewma ewma = detectors.ewma();
    boolean limited = detectors.rules().contains(RunRule.BEYOND_LIMITS);
    return new Suggestion(
        detectors,
        design.averageRunLengths(0).get(0).mean(),
        ewma == null
            ? design.averageRunLengths(shift).get(0).mean()
            : new EwmaEquation(ewma, limited).atSettled(shift)[0]);
  }

  /** What the chart does, in a sentence for people. */
  public String reason() {
    return "It finds the shift after %s results on average, and raises one false alarm in %s results."
        .formatted(Rounding.of(atShift), Rounding.of(inControl));
  }
}
