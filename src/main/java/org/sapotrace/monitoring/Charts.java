package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Tells what there is to draw of the streams, and their signals. */
@ApplicationScoped
@Transactional
public class Charts {

  private final ProductLines productLines;
  private final Points points;
  private final LimitsRevisions limitsRevisions;
  private final Limits limits;
  private final Signals signals;
  private final Withdrawals withdrawals;

  Charts(
      ProductLines productLines,
      Points points,
      LimitsRevisions limitsRevisions,
      Limits limits,
      Signals signals,
      Withdrawals withdrawals) {
    this.productLines = productLines;
    this.points = points;
    this.limitsRevisions = limitsRevisions;
    this.limits = limits;
    this.signals = signals;
    this.withdrawals = withdrawals;
  }

  /**
   * A stream's points with their judgements and all its limits.
   *
   * @param limitsRevision the latest revision to judge by; null for the latest of all
   */
  public Chart chart(Stream stream, PointSelection selection, @Nullable Integer limitsRevision) {
    List<JudgedPoint> chosen = points.judged(stream.id(), selection, limitsRevision);
    int first = chosen.isEmpty() ? 1 : chosen.get(0).point().position();
    JudgedPoint before = points.judgedAt(stream.id(), first - 1, limitsRevision).orElse(null);
    // Behind the points, so that limits laid down meanwhile are known to whoever names them.
    List<LimitsRevision> revisions = limitsRevisions.of(stream.id());
    if (limitsRevision != null) {
      chosen = asItWas(chosen, revisions.indexOf(limits.of(stream, limitsRevision)), revisions);
    }
    Line line = stream.line() == null ? null : productLines.line(stream.line());
    return new Chart(
        line,
        stream,
        revisions,
        before,
        chosen,
        live(stream, chosen, limitsRevision),
        withdrawn(stream, selection, chosen));
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
  private static List<JudgedPoint> asItWas(
      List<JudgedPoint> judged, int latest, List<LimitsRevision> revisions) {
    List<LimitsRevision> known = revisions.subList(0, latest + 1);
    return judged.stream()
        .filter(
            point ->
                point.judgement() != null
                    || Judge.inForce(known, point.point().result().sampledAt()).isEmpty())
        .toList();
  }

  public Signal signal(UUID id) {
    return signals
        .signal(id)
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

  private @Nullable List<UUID> streamsOf(@Nullable String line, @Nullable String slug) {
    if (line == null) {
      return null;
    }
    List<Stream> streams =
        slug == null
            ? productLines.streamsAfter(line, "", Integer.MAX_VALUE)
            : List.of(productLines.stream(line, slug));
    return streams.stream().map(Stream::id).toList();
  }
}
