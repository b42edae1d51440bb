package org.sapotrace.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.refusal.Refusal;

/**
 * A result on record, with all that was ever made of it.
 *
 * @param id its identifier, wherever results are named
 * @param stream the stream it belongs to
 * @param sampledAt when the sample was taken
 * @param revisions oldest first; never empty
 */
public record RecordedResult(
    UUID id, UUID stream, String batch, Instant sampledAt, List<Revision> revisions) {

  /**
   * One state of a result.
   *
   * @param revision counting from 1
   * @param reason why it was recorded; null for the first
   * @param withdrawn whether the result does not count; entry and assessment are then the last that
   *     did
   */
  public record Revision(
      int revision,
      Instant recordedAt,
      @Nullable String reason,
      boolean withdrawn,
      Entry entered,
      Assessment assessment) {

    /** The revision after this one, for what was entered already. */
    Revision next(Instant now, String why, Assessment again) {
      return new Revision(revision + 1, now, why, withdrawn, entered, again);
    }
  }

  public RecordedResult {
    revisions = List.copyOf(revisions);
  }

  /** How to refuse an identifier of no result. */
  static Refusal none(UUID id) {
    return Refusal.unknown("There is no result %s.".formatted(id));
  }

  /** The state that counts. */
  public Revision latest() {
    return revisions.get(revisions.size() - 1);
  }

  /** The state that counts, as its chart sees it. */
  ChartedResult charted() {
    Assessment assessment = latest().assessment();
    return new ChartedResult(
        id,
        batch,
        sampledAt,
        latest().entered() instanceof MeasuredElsewhere measured
            ? new Subgroup(measured.values())
            : Subgroup.of(assessment.result().value()),
        assessment.result().standardUncertainty(),
        assessment.belowDetection());
  }

  /** The result with one more revision. */
  RecordedResult with(Revision next) {
    List<Revision> all = new ArrayList<>(revisions);
    all.add(next);
    return new RecordedResult(id, stream, next.entered().batch(), next.entered().sampledAt(), all);
  }
}
