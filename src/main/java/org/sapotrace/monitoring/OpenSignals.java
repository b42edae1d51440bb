package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.RunState;
import org.sapotrace.controlchart.Side;
import org.sapotrace.productline.Stream;

/**
 * The signals of one pass over the points of a stream: those that hold at the point before it and
 * may go on, and those known from an earlier pass, which this one finds again or takes back.
 */
final class OpenSignals {

  /** Makes a new signal at a point. */
  @FunctionalInterface
  interface Raiser {
    Signal raise(Point point, LimitsRevision limits, RunRule rule);
  }

  private record Occurrence(RunRule rule, Side side, UUID result) {}

  private final Stream stream;
  private final Map<RunRule, Signal> holding = new EnumMap<>(RunRule.class);
  private final Map<Occurrence, Signal> known = new HashMap<>();
  private final Map<UUID, Signal> touched = new LinkedHashMap<>();

  /**
   * Takes up the signals at the beginning of a pass.
   *
   * @param stream whose points are judged
   * @param before the point before the first one judged; null where there is none
   * @param first the first point judged
   * @param live the signals that were seen at the point before or later
   * @param positions the position of a result
   */
  OpenSignals(
      Stream stream,
      @Nullable Point before,
      Point first,
      List<Signal> live,
      ToIntFunction<UUID> positions) {
    this.stream = stream;
    for (Signal signal : live) {
      if (first.compareTo(signal.openedAt(), signal.result()) <= 0) {
        known.put(new Occurrence(signal.rule(), signal.side(), signal.result()), signal);
      } else if (before != null
          && before.compareTo(signal.lastSampledAt(), signal.lastResult()) <= 0) {
        // It may have gone on behind the point before; this pass finds out how far.
        int length = before.position() - positions.applyAsInt(signal.result()) + 1;
        Signal cut = signal.seenAt(before, length, signal.limitsRevision());
        holding.put(signal.rule(), cut);
        touched.put(cut.id(), cut);
      }
    }
  }

  static Side side(RunState state, RunRule rule) {
    return Objects.requireNonNull(state.side(rule), "the rule holds");
  }

  /** Ends every run, as new limits do. */
  void closeAll() {
    holding.clear();
  }

  /** Lets the signals whose rules hold at a point go on, and raises those that begin there. */
  void keep(Point point, LimitsRevision limits, Set<RunRule> rules, RunState state, Raiser raiser) {
    holding.keySet().retainAll(rules);
    for (RunRule rule : rules) {
      Signal going = holding.get(rule);
      Signal signal =
          going != null && going.side() == side(state, rule)
              ? going.seenAt(point, going.points() + 1, limits.revision())
              : begin(point, limits, rule, side(state, rule), raiser);
      holding.put(rule, signal);
      touched.put(signal.id(), signal);
    }
  }

  private Signal begin(Point point, LimitsRevision limits, RunRule rule, Side side, Raiser raiser) {
    Signal again = known.remove(new Occurrence(rule, side, point.result().result()));
    if (again == null) {
      return raiser.raise(point, limits, rule);
    }
    // Its words name the limits, and these may be others than when it was raised.
    String text = SignalText.of(stream, point, limits.limits(), rule, side);
    return again.seenAt(point, 1, limits.revision()).withText(text);
  }

  /** All signals that this pass changed; those it did not find again have lapsed. */
  List<Signal> changed(Instant now, String reason) {
    List<Signal> changed = new ArrayList<>(touched.values());
    known.values().forEach(signal -> changed.add(signal.lapsed(now, reason)));
    return changed;
  }
}
