package org.sapotrace.bench;

import io.quarkus.narayana.jta.runtime.TransactionConfiguration;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Monitoring;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/**
 * Computes results again that were found with a titrant lot, once more is known of its strength.
 * Nothing is overwritten: what counts with another strength becomes a new revision.
 */
@ApplicationScoped
@Transactional
public class Recalculation {

  private static final int PAGE = 1000;

  /** How long the results of one stream may take, in s. */
  private static final int LONGEST = 900;

  /**
   * What came of the results of one stream.
   *
   * @param changed those with a new revision, in the order of sampling
   * @param unchanged how many come out as before
   * @param refused those that cannot be computed any more, and stay as they are
   */
  public record Outcome(
      Stream stream, List<RecordedResult> changed, int unchanged, List<Refused> refused) {

    public Outcome {
      changed = List.copyOf(changed);
      refused = List.copyOf(refused);
    }
  }

  /** A result that stays as it is, and why. */
  public record Refused(UUID result, String problem) {}

  private final ProductLines productLines;
  private final Monitoring monitoring;
  private final Results results;
  private final OwnReplicates replicates;
  private final Assessor assessor;
  private final Removals removals;
  private final InstantSource clock;
  private final Verdicts verdicts;
  private final Event<ResultsRecorded> recorded;

  Recalculation(
      ProductLines productLines,
      Monitoring monitoring,
      Results results,
      OwnReplicates replicates,
      Assessor assessor,
      Removals removals,
      InstantSource clock,
      Verdicts verdicts,
      Event<ResultsRecorded> recorded) {
    this.productLines = productLines;
    this.monitoring = monitoring;
    this.results = results;
    this.replicates = replicates;
    this.assessor = assessor;
    this.removals = removals;
    this.clock = clock;
    this.verdicts = verdicts;
    this.recorded = recorded;
  }

  /**
   * The streams with results that stand as titrated with a lot.
   *
   * @param from when the first sample was taken (inclusive); null for all
   */
  public List<UUID> streamsTitratedWith(String lot, @Nullable Instant from) {
    return results.streamsTitratedWith(
        lot, Objects.requireNonNullElse(from, SamplingTime.EARLIEST));
  }

  /**
   * Computes the results of one stream again, interpolating the lot between its standardisations,
   * and has the chart judged again from the first that changed. The stream's lock keeps new results
   * out meanwhile.
   */
  @TransactionConfiguration(timeout = LONGEST)
  public Outcome interpolate(UUID streamId, String lot, @Nullable Instant from, String reason) {
    Stream stream = productLines.lock(streamId).orElseThrow();
    Line line = productLines.line(Objects.requireNonNull(stream.line()));
    List<RecordedResult> changed = new ArrayList<>();
    List<Refused> refused = new ArrayList<>();
    List<RecordedResult> titrated = titratedWith(lot, streamId, from);
    ReplicateHistory history = history(streamId, titrated);
    for (RecordedResult result : titrated) {
      RecordedResult.Revision latest = result.latest();
      Background background =
          new Background(true, history.pooled(result.sampledAt(), result.id()), null);
      try {
        Assessment again = assessor.assess(line, stream, latest.entered(), background);
        if (!countsWithTheSame(again.titrant(), latest.assessment().titrant())) {
          changed.add(result.with(latest.next(clock.instant(), reason, again)));
        }
      } catch (Refusal refusal) {
        refused.add(new Refused(result.id(), String.valueOf(refusal.getMessage())));
      }
    }
    for (RecordedResult result : changed) {
      results.revise(result);
      verdicts.tell(stream, result);
    }
    monitoring.correctAll(stream, changed.stream().map(RecordedResult::charted).toList(), reason);
    removals.follow(stream, changed.stream().map(RecordedResult::batch).toList(), reason);
    recorded.fire(new ResultsRecorded(stream));
    int unchanged = titrated.size() - changed.size() - refused.size();
    return new Outcome(stream, changed, unchanged, refused);
  }

  /** Whether the caller may look at a result. */
  public boolean isInReach(UUID result) {
    return results.streamOf(result).flatMap(productLines::stream).isPresent();
  }

  /** What else is known better by now is not the lot's, and is left to a correction. */
  private static boolean countsWithTheSame(@Nullable UsedTitrant one, @Nullable UsedTitrant other) {
    return one != null
        && other != null
        && one.normality() == other.normality()
        && one.standardUncertainty() == other.standardUncertainty();
  }

  private ReplicateHistory history(UUID stream, List<RecordedResult> inOrder) {
    return inOrder.isEmpty()
        ? ReplicateHistory.none()
        : ReplicateHistory.from(
            replicates,
            stream,
            inOrder.get(0).sampledAt(),
            inOrder.get(inOrder.size() - 1).sampledAt());
  }

  private List<RecordedResult> titratedWith(String lot, UUID stream, @Nullable Instant from) {
    List<RecordedResult> titrated = new ArrayList<>();
    Results.Place after = null;
    List<RecordedResult> page;
    do {
      page = results.select(stream, new Results.Selection(from, null, after), PAGE);
      for (RecordedResult result : page) {
        after = new Results.Place(result.sampledAt(), result.id());
        if (!result.latest().withdrawn() && lot.equals(result.latest().entered().titrantLot())) {
          titrated.add(result);
        }
      }
    } while (page.size() == PAGE);
    return titrated;
  }
}
