package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Control;
import org.sapotrace.monitoring.Monitoring;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Corrects and withdraws results on record; the chart is judged again from there. */
@ApplicationScoped
@Transactional
public class Corrections {

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final OwnReplicates replicates;
  private final Assessor assessor;
  private final Removals removals;
  private final InstantSource clock;
  private final Verdicts verdicts;
  private final ThroughputLog throughputLog;
  private final Event<ResultsRecorded> recorded;

  Corrections(
      ProductLines productLines,
      Monitoring monitoring,
      Results results,
      OwnReplicates replicates,
      Assessor assessor,
      Removals removals,
      InstantSource clock,
      Verdicts verdicts,
      ThroughputLog throughputLog,
      Event<ResultsRecorded> recorded) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.replicates = replicates;
    this.assessor = assessor;
    this.removals = removals;
    this.clock = clock;
    this.verdicts = verdicts;
    this.throughputLog = throughputLog;
    this.recorded = recorded;
  }

  /**
   * Adds a revision to a result.
   *
   * @throws Refusal if the correction cannot be true, the result was withdrawn, or is a removal
   */
  public Bench.PlacedResult correct(UUID id, Correction correction) {
    return correct(id, correction, current -> {});
  }

  /**
   * The same, of a result that is as the caller saw it.
   *
   * @param precondition is shown the result under its stream's lock, and throws where the caller
   *     wants nothing changed
   */
  public Bench.PlacedResult correct(
      UUID id, Correction correction, Consumer<RecordedResult> precondition) {
    // The lock comes before the look at what is there.
    Stream stream =
        results.streamOf(id).flatMap(productLines::lock).orElseThrow(() -> RecordedResult.none(id));
    RecordedResult current = results.result(id).orElseThrow(() -> RecordedResult.none(id));
    if (current.latest().entered() instanceof BatchRemoval removal) {
      throw removal.refuseCorrection();
    }
    if (current.latest().withdrawn()) {
      throw Refusal.conflict("Result %s was withdrawn; record the sample anew.".formatted(id));
    }
    precondition.accept(current);
    RecordedResult revised = current.with(revision(stream, current, correction));
    results.revise(revised);
    verdicts.tell(stream, revised);
    String reason =
        "result of batch %s was corrected: %s".formatted(revised.batch(), correction.reason());
    Control control = null;
    if (revised.latest().withdrawn()) {
      monitoring.withdraw(stream, id, reason);
    } else {
      control = monitoring.correct(stream, revised.charted(), reason);
    }
    removals.follow(stream, List.of(current.batch(), revised.batch()), reason);
    recorded.fire(new ResultsRecorded(stream));
    return new Bench.PlacedResult(
        revised, stream, control, removals.cautions(stream, revised.batch()));
  }

  private RecordedResult.Revision revision(
      Stream stream, RecordedResult current, Correction correction) {
    RecordedResult.Revision latest = current.latest();
    boolean withdrawn = correction.change() instanceof Correction.Withdrawn;
    Entry entry = correction.change().appliedTo(latest.entered());
    return new RecordedResult.Revision(
        latest.revision() + 1,
        clock.instant(),
        correction.reason(),
        withdrawn,
        entry,
        withdrawn ? latest.assessment() : assess(stream, current, entry));
  }

  private Assessment assess(Stream stream, RecordedResult current, Entry entry) {
    SamplingTime.check(entry, clock.instant());
    Line line = productLines.line(Objects.requireNonNull(stream.line()));
    Instant at = entry.sampledAt();
    ReplicateHistory history = ReplicateHistory.from(replicates, stream.id(), at, at);
    Background background =
        new Background(
            interpolates(current.latest().assessment().titrant(), entry),
            history.pooled(at, current.id()),
            new NormalitiesBefore(results, stream.id()).before(entry));
    Assessment assessment = assessor.assess(line, stream, entry, background);
    throughputLog.around(stream, List.of(entry), current.id()).check(entry, current.id());
    return assessment;
  }

  /** Where a restatement interpolated a lot, a correction does so too, and never undoes it. */
  private static boolean interpolates(@Nullable UsedTitrant used, Entry entry) {
    return used != null && used.interpolated() && used.lot().equals(entry.titrantLot());
  }
}
