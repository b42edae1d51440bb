package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Tells what there is to draw of the streams, and their signals. */
@ApplicationScoped
@Transactional
public class Charts {

  private final ProductLines productLines;
  private final Judgements judgements;
  private final LimitsRevisions limitsRevisions;
  private final Limits limits;
  private final Signals signals;
  private final Withdrawals withdrawals;
  private final Logbook logbook;

  Charts(
      ProductLines productLines,
      Judgements judgements,
      LimitsRevisions limitsRevisions,
      Limits limits,
      Signals signals,
      Withdrawals withdrawals,
      Logbook logbook) {
    this.productLines = productLines;
    this.judgements = judgements;
    this.limitsRevisions = limitsRevisions;
    this.limits = limits;
    this.signals = signals;
    this.withdrawals = withdrawals;
    this.logbook = logbook;
  }

  /**
   * A stream's points with their judgements and all its limits.
   *
   * @param limitsRevision the latest revision to judge by; null for the latest of all
   */
  public Chart chart(Stream stream, PointSelection selection, @Nullable Integer limitsRevision) {
    List<JudgedPoint> chosen = judgements.judged(stream.id(), selection, limitsRevision);
    int first = chosen.isEmpty() ? 1 : chosen.get(0).point().position();
    JudgedPoint before = judgements.judgedAt(stream.id(), first - 1, limitsRevision).orElse(null);
    // Behind the points, so that limits laid down meanwhile are known to whoever names them.
    List<LimitsRevision> revisions = limitsRevisions.of(stream.id());
    List<PlantEvent> events = logbook.touching(stream);
    if (limitsRevision != null) {
      events = knownBefore(limits.of(stream, limitsRevision), revisions, events);
      chosen = asItWas(chosen, new Regime(revisions.subList(0, limitsRevision), Phases.of(events)));
    }
    Line line = stream.line() == null ? null : productLines.line(stream.line());
    return new Chart(
        line,
        stream,
        selection,
        revisions,
        before,
        chosen,
        live(stream, chosen, limitsRevision),
        withdrawn(stream, selection, chosen),
        Phases.of(events),
        shown(events, selection, chosen));
  }

  /** The events that were on record until the limits behind those were laid down. */
  private static List<PlantEvent> knownBefore(
      LimitsRevision latest, List<LimitsRevision> revisions, List<PlantEvent> events) {
    return latest.revision() == revisions.size()
        ? events
        : events.stream()
            .filter(e -> e.recordedAt().isBefore(revisions.get(latest.revision()).adoptedAt()))
            .toList();
  }

  /** The events since the first point, or of the period asked for. */
  private static List<PlantEvent> shown(
      List<PlantEvent> events, PointSelection selection, List<JudgedPoint> points) {
    Instant from =
        selection.from() != null || points.isEmpty()
            ? selection.from()
            : points.get(0).point().result().sampledAt();
    Instant to = selection.to();
    return events.stream()
        .filter(event -> from == null || !event.at().isBefore(from))
        .filter(event -> to == null || !event.at().isAfter(to))
        .toList();
  }

  /** The signals that held somewhere among points, as far as those limits know of them. */
  private List<Signal> live(
      Stream stream, List<JudgedPoint> shown, @Nullable Integer limitsRevision) {
    if (shown.isEmpty()) {
      return List.of();
    }
    Place last = shown.get(shown.size() - 1).point().place();
    return signals.liveSince(stream.id(), shown.get(0).point().result().sampledAt()).stream()
        .filter(signal -> !last.isBefore(signal.opening()))
        .filter(signal -> limitsRevision == null || signal.limitsRevision() <= limitsRevision)
        .toList();
  }

  /** Of the latest points, what was withdrawn since the first of them; else of the period. */
  private List<Withdrawals.Withdrawn> withdrawn(
      Stream stream, PointSelection selection, List<JudgedPoint> shown) {
    Instant from = selection.from();
    if (selection.last() != null && !shown.isEmpty()) {
      from = shown.get(0).point().result().sampledAt();
    }
    return withdrawals.between(stream.id(), from, selection.to());
  }

  /**
   * Without the points that limits of the time cover and did not judge: they were recorded when
   * other limits had taken over.
   */
  private static List<JudgedPoint> asItWas(List<JudgedPoint> judged, Regime known) {
    return judged.stream()
        .filter(
            point ->
                point.judgement() != null
                    || known.inForce(point.point().result().sampledAt()).isEmpty())
        .toList();
  }

  public Signal signal(UUID id) {
    return signals
        .signal(id)
        .filter(signal -> productLines.stream(signal.stream()).isPresent())
        .orElseThrow(() -> Refusal.unknown("There is no signal %s.".formatted(id)));
  }

  /**
   * Signals in the order in which they were raised.
   *
   * @param exclusive those after this one; null for the first
   * @param line those of this line; null for all lines
   * @param slug those of this stream of the line; null for all its streams
   * @param state those in this state; null for any
   */
  public List<Signal> signalsAfter(
      @Nullable UUID exclusive,
      @Nullable String line,
      @Nullable String slug,
      Signal.@Nullable State state,
      int most) {
    return signals.after(exclusive, new Signals.Filter(streamsOf(line, slug), state), most);
  }

  /** Signals of a stream in that state, the one raised last first. */
  public List<Signal> latestSignals(Stream stream, Signal.State state, int most) {
    return signals.latest(stream.id(), state, most);
  }

  private @Nullable List<UUID> streamsOf(@Nullable String line, @Nullable String slug) {
    if (line == null) {
      return productLines.streamsInReach().orElse(null);
    }
    List<Stream> streams =
        slug == null
            ? productLines.streamsAfter(line, "", Integer.MAX_VALUE)
            : List.of(productLines.stream(line, slug));
    return streams.stream().map(Stream::id).toList();
  }
}
