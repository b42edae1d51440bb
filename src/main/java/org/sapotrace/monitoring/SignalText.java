package org.sapotrace.monitoring;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
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
            ? result(stream, point, limits, side)
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

  private static String result(Stream stream, Point point, LimitsRevision revision, Side side) {
    double value = point.result().value();
    ControlLimits limits = revision.limits();
    String place =
        revision.plotting().takes(value)
            ? ""
            : ", where a %s scale has no place".formatted(revision.plotting().scale().id());
    return "%s%s, %s"
        .formatted(
            stream.withUnit(Rounding.of(value)),
            place,
            lines(revision, limits.centre(), limits.lower(), limits.upper(), side, ""));
  }

  /** The lines by which something was judged, in the unit of the results. */
  private static String lines(
      LimitsRevision revision,
      double centre,
      @Nullable Double lower,
      double upper,
      Side side,
      String whose) {
    Double low = revision.shown(lower);
    Double high = revision.shown(upper);
    Double middle = revision.shown(centre);
    String limit =
        side == Side.LOW && low != null
            ? "%slower control limit %s".formatted(whose, Rounding.of(low))
            : high == null
                ? "%supper control limit none".formatted(whose)
                : "%supper control limit %s".formatted(whose, Rounding.of(high));
    return "centre %s, %s".formatted(middle == null ? "none" : Rounding.of(middle), limit);
  }

  private static String ewma(Stream stream, LimitsRevision revision, ChartState state, Side side) {
    EwmaState average = Objects.requireNonNull(state.ewma());
    Ewma ewma = Objects.requireNonNull(revision.detectors().ewma());
    Ewma.Limits limits = ewma.limits(revision.limits(), average);
    Double shown = revision.shown(average.average());
    return "EWMA %s, %s"
        .formatted(
            shown == null ? "beyond every result" : stream.withUnit(Rounding.of(shown)),
            lines(revision, limits.centre(), limits.lower(), limits.upper(), side, "its "));
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
