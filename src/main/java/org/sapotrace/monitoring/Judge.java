package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/*
 * One way to judge, whatever happened. A new result, a late one and new limits all mean the same:
 * the points from some place on are judged, going on from the state that is stored with the point
 * before that place. A result that comes in order is the case in which that place is the end, so it
 * costs the same however long the stream is; and judging again ends in the state that judging in
 * order would have reached, because it is the same code.
 */
/** Judges the points of a stream by the limits in force and keeps its signals in step. */
@ApplicationScoped
class Judge {

  private static final int PAGE = 1000;

  private final Points points;
  private final Judgements judgements;
  private final Regimes regimes;
  private final Signals signals;
  private final ProductLines productLines;
  private final InstantSource clock;
  private final Event<SignalRaised> raised;
  private final Event<SignalLapsed> lapsed;

  Judge(
      Points points,
      Judgements judgements,
      Regimes regimes,
      Signals signals,
      ProductLines productLines,
      InstantSource clock,
      Event<SignalRaised> raised,
      Event<SignalLapsed> lapsed) {
    this.points = points;
    this.judgements = judgements;
    this.regimes = regimes;
    this.signals = signals;
    this.productLines = productLines;
    this.clock = clock;
    this.raised = raised;
    this.lapsed = lapsed;
  }

  /** Judges a point and all behind it. The caller holds the stream's lock. */
  void judgeFrom(Stream stream, Point first, String reason) {
    judgeFrom(stream, first, reason, Hindsight.NONE);
  }

  /** The same where somebody is told of a part only. */
  void judgeFrom(Stream stream, Point first, String reason, Hindsight hindsight) {
    judgeFrom(
        stream,
        first.position(),
        first.place(),
        reason,
        found -> hindsight.covers(found.lastSampledAt()));
  }

  /** The same where limits were laid down: what is found was there before anybody looked. */
  void lookBack(Stream stream, Point first, String reason) {
    judgeFrom(stream, first, reason, Hindsight.WHOLE);
  }

  /**
   * The same where a result that was just recorded had limits laid down: what holds there is new.
   */
  void lookBack(Stream stream, Point first, String reason, Point recorded, Hindsight hindsight) {
    boolean isOld = hindsight.covers(recorded.result().sampledAt());
    judgeFrom(
        stream,
        first.position(),
        first.place(),
        reason,
        found -> isOld || !found.covers(recorded.place()));
  }

  /**
   * Judges all points from a position on. The caller holds the stream's lock.
   *
   * @param position of the first point judged; one more than there are points where none is left
   * @param since the place from which on things may have changed: that of the first point judged,
   *     or of a point before it that is gone
   * @param reason why points may be judged otherwise than before, as a clause
   */
  void judgeFrom(Stream stream, int position, Place since, String reason) {
    judgeFrom(stream, position, since, reason, found -> false);
  }

  private void judgeFrom(
      Stream stream, int position, Place since, String reason, Predicate<Signal> isOld) {
    Regime regime = regimes.of(stream);
    if (regime.revisions().isEmpty()) {
      return;
    }
    Run run = resume(stream, regime, position, since);
    List<Point> page = points.from(stream.id(), position, PAGE);
    while (!page.isEmpty()) {
      page.forEach(run::judge);
      run.write();
      int last = page.get(page.size() - 1).position();
      page = page.size() < PAGE ? List.of() : points.from(stream.id(), last + 1, PAGE);
    }
    List<Signal> changed = run.open.changed(clock.instant(), reason);
    // Whoever hears that a signal lapsed hears of the one that now stands where it stood.
    boolean isReplacing = changed.stream().anyMatch(signal -> signal.lapse() != null);
    for (Signal signal : changed) {
      signals.save(signal);
      tell(run, signal, isOld.test(signal) && !(isReplacing && run.endsIn(signal)));
    }
  }

  private void tell(Run run, Signal changed, boolean isHindsight) {
    ChartedResult at = run.raised.get(changed.id());
    if (changed.lapse() != null) {
      lapsed.fire(new SignalLapsed(run.stream, changed));
    } else if (at != null) {
      LimitsRevision limits = run.regime.revisions().get(changed.limitsRevision() - 1);
      raised.fire(new SignalRaised(run.stream, changed, at, limits, isHindsight));
    }
  }

  private Run resume(Stream stream, Regime regime, int position, Place since) {
    Point before = points.at(stream.id(), position - 1).orElse(null);
    Instant seen = before == null ? since.sampledAt() : before.result().sampledAt();
    OpenSignals open =
        new OpenSignals(
            stream,
            before,
            since,
            signals.liveSince(stream.id(), seen),
            result -> points.ofResult(stream.id(), result).orElseThrow().position());
    Run run = new Run(stream, regime, open);
    if (before != null) {
      LimitsRevision limits = regime.inForce(seen).orElse(null);
      if (limits != null) {
        judgements
            .judgement(stream.id(), before, limits.revision())
            .ifPresent(judgement -> run.goOn(limits, before, judgement.state()));
      }
    }
    return run;
  }

  /** One pass over the points of a stream. */
  private final class Run {
    private final Stream stream;
    private final Regime regime;
    private final OpenSignals open;
    private final Map<UUID, ChartedResult> raised = new HashMap<>();
    private final List<JudgedPoint> judged = new ArrayList<>();
    private final LookBack lookBack;
    private @Nullable LimitsRevision limits;
    private @Nullable Point last;
    private ChartState state = ChartState.START;

    Run(Stream stream, Regime regime, OpenSignals open) {
      this.stream = stream;
      this.regime = regime;
      this.open = open;
      this.lookBack = new LookBack(points, stream.id());
    }

    void goOn(LimitsRevision stored, Point at, ChartState storedState) {
      limits = stored;
      last = at;
      state = storedState;
    }

    /** Whether a signal still holds at the last point judged. */
    boolean endsIn(Signal signal) {
      return last != null && signal.covers(last.place());
    }

    void judge(Point point) {
      LimitsRevision inForce = regime.inForce(point.result().sampledAt()).orElse(null);
      if (!Objects.equals(inForce, limits)
          || (last != null && regime.phases().separate(last, point))) {
        // New limits and a new phase start every run, average and sum afresh.
        limits = inForce;
        state = ChartState.START;
        open.closeAll();
      }
      last = point;
      lookBack.add(point);
      if (inForce == null) {
        // Trial limits may have judged it, until its phase turned out to be another one.
        judgements.takeBack(stream.id(), point);
        return;
      }
      ChartedResult result = point.result();
      state =
          state.next(
              inForce.judged(result),
              inForce.values(result).size(),
              inForce.limits(),
              inForce.detectors());
      Set<SignalRule> holding = state.holding(inForce.limits(), inForce.detectors());
      judged.add(new JudgedPoint(point, new Judgement(inForce.revision(), state, holding)));
      open.keep(point, inForce, state, this::raise);
    }

    void write() {
      judgements.judge(stream.id(), judged);
      judged.clear();
    }

    private Signal raise(Point point, LimitsRevision inForce, SignalRule rule, Side side) {
      int length = state.window(rule);
      int back = Math.min(state.runs().count(), Beginning.LOOK_BACK);
      List<ChartedResult> results = lookBack.results(back);
      List<ChartedResult> window = results.subList(back - length, back);
      UUID id = productLines.nextIdentifier(stream.id());
      raised.put(id, point.result());
      return new Signal(
          id,
          stream.id(),
          rule,
          side,
          inForce.revision(),
          point.result().result(),
          point.result().sampledAt(),
          Beginning.of(results, length, inForce, rule, side),
          clock.instant(),
          window.stream().map(ChartedResult::result).toList(),
          point.result().result(),
          point.result().sampledAt(),
          1,
          SignalText.of(stream, point, inForce, state, rule, side),
          null,
          null);
    }
  }
}
