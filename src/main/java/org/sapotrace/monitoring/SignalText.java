package org.sapotrace.monitoring;

import java.util.Objects;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.CusumState;
import org.sapotrace.controlchart.DriftRule;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.EwmaState;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/** Says in words what a signal is. */
final class SignalText {

  private SignalText() {}

  static String of(
      Stream stream,
      Point point,
      LimitsRevision limits,
      ChartState state,
      SignalRule rule,
      Side side) {
    String figures =
        rule instanceof RunRule
            ? result(stream, point, limits.limits(), side)
            : rule == DriftRule.EWMA_BEYOND_LIMITS
                ? ewma(stream, limits, state, side)
                : cusum(limits, state, side);
    // Under no line stands the strength of a titrant lot, and the lot is its only batch.
    String batch = stream.line() == null ? "" : ", batch " + point.result().batch();
    return "%s%s: %s%s (%s)."
        .formatted(stream.name(), batch, rule.description(), where(rule, side), figures);
  }

  private static String where(SignalRule rule, Side side) {
    if (rule == DriftRule.CUSUM_HIGH || rule == DriftRule.CUSUM_LOW) {
      return "";
    }
    return switch (side) {
      case HIGH -> rule == RunRule.SIX_TRENDING ? ", rising" : ", above the centre";
      case LOW -> rule == RunRule.SIX_TRENDING ? ", falling" : ", below the centre";
      case NONE -> "";
    };
  }

  private static String result(Stream stream, Point point, ControlLimits limits, Side side) {
    Double lower = limits.lower();
    return "%s %s, centre %s, %s"
        .formatted(
            Rounding.of(point.result().value()),
            stream.unit(),
            Rounding.of(limits.centre()),
            side == Side.LOW && lower != null
                ? "lower control limit " + Rounding.of(lower)
                : "upper control limit " + Rounding.of(limits.upper()));
  }

  private static String ewma(Stream stream, LimitsRevision revision, ChartState state, Side side) {
    EwmaState average = Objects.requireNonNull(state.ewma());
    Ewma ewma = Objects.requireNonNull(revision.detectors().ewma());
    Ewma.Limits limits = ewma.limits(revision.limits(), average);
    Double lower = limits.lower();
    return "EWMA %s %s, centre %s, %s"
        .formatted(
            Rounding.of(average.average()),
            stream.unit(),
            Rounding.of(limits.centre()),
            side == Side.LOW && lower != null
                ? "its lower limit " + Rounding.of(lower)
                : "its upper limit " + Rounding.of(limits.upper()));
  }

  private static String cusum(LimitsRevision limits, ChartState state, Side side) {
    CusumState sums = Objects.requireNonNull(state.cusum());
    Cusum cusum = Objects.requireNonNull(limits.detectors().cusum());
    CusumState.Sum sum = side == Side.HIGH ? sums.high() : sums.low();
    return "%s standard deviations gathered over %d %s, decision value %s"
        .formatted(
            Rounding.of(sum.value()),
            sum.length(),
            sum.length() == 1 ? "result" : "results",
            Rounding.of(cusum.decision()));
  }
}
