package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.ToIntFunction;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.productline.Stream;

/**
 * The signals of one pass over the points of a stream: those that hold at the point before it and
 * may go on, and those known from an earlier pass, which this one finds again or takes back.
 */
final class OpenSignals {

  /** Makes a new signal at a point. */
  @FunctionalInterface
  interface Raiser {
    Signal raise(Point point, LimitsRevision limits, SignalRule rule, Side side);
  }

  private record Occurrence(SignalRule rule, Side side, UUID result) {}

  private final Stream stream;
  private final Map<SignalRule, Signal> holding = new HashMap<>();
  private final Map<Occurrence, Signal> known = new HashMap<>();
  private final Map<UUID, Signal> touched = new LinkedHashMap<>();

  /**
   * Takes up the signals at the beginning of a pass.
   *
   * @param stream whose points are judged
   * @param before the point before the first one judged; null where there is none
   * @param since the place from which on points are judged, and what was known is doubted
   * @param live the signals that were seen at the point before or later
   * @param positions the position of a result
   */
  OpenSignals(
      Stream stream,
      @Nullable Point before,
      Place since,
      List<Signal> live,
      ToIntFunction<UUID> positions) {
    this.stream = stream;
    for (Signal signal : live) {
      if (!signal.opening().isBefore(since)) {
        known.put(new Occurrence(signal.rule(), signal.side(), signal.result()), signal);
      } else if (before != null && signal.covers(before.place())) {
        // It may have gone on behind the point before; this pass finds out how far.
        int length = before.position() - positions.applyAsInt(signal.result()) + 1;
        Signal cut = signal.seenAt(before, length, signal.limitsRevision());
        holding.put(signal.rule(), cut);
        touched.put(cut.id(), cut);
      }
    }
  }

  /** Ends every run, as new limits do. */
  void closeAll() {
    holding.clear();
  }

  /** Lets the signals that go on at a point go on, and raises those that begin there. */
  void keep(Point point, LimitsRevision limits, ChartState state, Raiser raiser) {
    Map<SignalRule, Side> signalling = state.signalling(limits.detectors());
    holding.keySet().retainAll(signalling.keySet());
    signalling.forEach(
        (rule, side) -> {
          Signal going = holding.get(rule);
          Signal signal =
              going != null && going.side() == side
                  ? going.seenAt(point, going.points() + 1, limits.revision())
                  : begin(point, limits, state, rule, side, raiser);
          holding.put(rule, signal);
          touched.put(signal.id(), signal);
        });
  }

  private Signal begin(
      Point point,
      LimitsRevision limits,
      ChartState state,
      SignalRule rule,
      Side side,
      Raiser raiser) {
    Signal again = known.remove(new Occurrence(rule, side, point.result().result()));
    if (again == null) {
      return raiser.raise(point, limits, rule, side);
    }
    // Its words name the limits, and these may be others than when it was raised.
    String text = SignalText.of(stream, point, limits, state, rule, side);
    return again.seenAt(point, 1, limits.revision()).withText(text);
  }

  /** All signals that this pass changed; those it did not find again have lapsed. */
  List<Signal> changed(Instant now, String reason) {
    List<Signal> changed = new ArrayList<>(touched.values());
    known.values().forEach(signal -> changed.add(signal.lapsed(now, reason)));
    return changed;
  }
}
