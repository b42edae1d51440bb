package org.sapotrace.monitoring;

import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Side;
import org.sapotrace.measure.Rounding;
import org.sapotrace.productline.Stream;

/** Says in words what a signal is. */
final class SignalText {

  private SignalText() {}

  static String of(Stream stream, Point point, ControlLimits limits, RunRule rule, Side side) {
    // Under no line stands the strength of a titrant lot, and the lot is its only batch.
    String batch = stream.line() == null ? "" : ", batch " + point.result().batch();
    return "%s%s: %s%s (%s %s, centre %s, %s)."
        .formatted(
            stream.name(),
            batch,
            rule.description(),
            where(rule, side),
            Rounding.of(point.result().value()),
            stream.unit(),
            Rounding.of(limits.centre()),
            limit(limits, side));
  }

  private static String where(RunRule rule, Side side) {
    return switch (side) {
      case HIGH -> rule == RunRule.SIX_TRENDING ? ", rising" : ", above the centre";
      case LOW -> rule == RunRule.SIX_TRENDING ? ", falling" : ", below the centre";
      case NONE -> "";
    };
  }

  private static String limit(ControlLimits limits, Side side) {
    Double lower = limits.lower();
    return side == Side.LOW && lower != null
        ? "lower control limit " + Rounding.of(lower)
        : "upper control limit " + Rounding.of(limits.upper());
  }
}
