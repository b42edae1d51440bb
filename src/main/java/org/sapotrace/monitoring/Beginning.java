package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.controlchart.StepChange;

/**
 * When the change behind a signal is estimated to have begun.
 *
 * @param at the first sample behind the change
 * @param earliest the first sample that may have been; null where {@code at} is no estimate
 * @param latest the last sample that may have been; null where {@code at} is no estimate
 */
public record Beginning(Instant at, @Nullable Instant earliest, @Nullable Instant latest) {

  /**
   * A signal looks back on so many results at most, so that raising one costs the same however long
   * the stream is. A shift of a quarter of sigma, unseen by three-sigma limits for 281 results on
   * average, is still found; what was missed for longer is too small for a step to be told from
   * chance.
   */
  static final int LOOK_BACK = 500;

  /** What these rules find is a pattern of its own, not a step to another level. */
  private static final Set<? extends SignalRule> PATTERNS =
      EnumSet.of(
          RunRule.SIX_TRENDING,
          RunRule.FOURTEEN_ALTERNATING,
          RunRule.FIFTEEN_WITHIN_1S,
          RunRule.EIGHT_OUTSIDE_1S);

  /**
   * The beginning of a signal: that of the most likely step to its side since the limits began to
   * judge, or, for a rule that is about no step, of its first window.
   *
   * @param judged the results judged by the limits up to the signal, {@link #LOOK_BACK} at most
   * @param window how many of them the rule looks at
   * @param limits that judged them
   */
  static Beginning of(
      List<ChartedResult> judged, int window, LimitsRevision limits, SignalRule rule, Side side) {
    if (PATTERNS.contains(rule)) {
      return new Beginning(judged.get(judged.size() - window).sampledAt(), null, null);
    }
    double[] values = judged.stream().mapToDouble(limits::judged).toArray();
    int[] sizes = judged.stream().mapToInt(result -> limits.values(result).size()).toArray();
    StepChange change = StepChange.of(values, sizes, limits.limits(), side);
    List<Integer> possible = change.possible();
    return new Beginning(
        judged.get(change.after()).sampledAt(),
        judged.get(possible.get(0)).sampledAt(),
        judged.get(possible.get(possible.size() - 1)).sampledAt());
  }
}
