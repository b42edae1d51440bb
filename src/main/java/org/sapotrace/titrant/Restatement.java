package org.sapotrace.titrant;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.Recalculation;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;

/**
 * What became of the results that were found with a titrant lot when its strength was interpolated
 * between its standardisations.
 *
 * @param from when the first sample was taken (inclusive); null for all
 * @param changed results that got a new revision, stream by stream in the order of sampling
 * @param verdictsTurned those of them whose verdict has another outcome than before
 * @param unchanged how many came out as before
 * @param refused results that cannot be computed any more, and stay as they are
 */
public record Restatement(
    UUID id,
    String lot,
    @Nullable Instant from,
    String reason,
    Instant recordedAt,
    List<Changed> changed,
    List<UUID> verdictsTurned,
    int unchanged,
    List<Recalculation.Refused> refused) {

  /** A result as it was and as it is. */
  public record Changed(
      UUID result,
      String line,
      String stream,
      String batch,
      Instant sampledAt,
      int revision,
      String unit,
      State before,
      State after) {

    boolean isTurned() {
      return before.outcome() != after.outcome();
    }
  }

  /**
   * What was made of a result.
   *
   * @param outcome of its verdict; null where nothing was specified
   */
  public record State(
      double value, @Nullable Double standardUncertainty, Verdict.@Nullable Outcome outcome) {

    static State of(RecordedResult.Revision revision) {
      Assessment assessment = revision.assessment();
      Verdict verdict = assessment.verdict();
      return new State(
          assessment.result().value(),
          assessment.result().standardUncertainty(),
          verdict == null ? null : verdict.outcome());
    }
  }

  public Restatement {
    changed = List.copyOf(changed);
    verdictsTurned = List.copyOf(verdictsTurned);
    refused = List.copyOf(refused);
  }

  static Restatement of(
      UUID id,
      String lot,
      @Nullable Instant from,
      String reason,
      Instant recordedAt,
      List<Recalculation.Outcome> outcomes) {
    List<Changed> changed = outcomes.stream().flatMap(Restatement::changed).toList();
    return new Restatement(
        id,
        lot,
        from,
        reason,
        recordedAt,
        changed,
        changed.stream().filter(Changed::isTurned).map(Changed::result).toList(),
        outcomes.stream().mapToInt(Recalculation.Outcome::unchanged).sum(),
        outcomes.stream().flatMap(outcome -> outcome.refused().stream()).toList());
  }

  /**
   * What is said of some results only; how many were unchanged is told of all.
   *
   * @param line tells the lines whose results are told
   * @param result tells the refused results that are told
   */
  Restatement only(Predicate<String> line, Predicate<UUID> result) {
    List<Changed> told = changed.stream().filter(each -> line.test(each.line())).toList();
    return new Restatement(
        id,
        lot,
        from,
        reason,
        recordedAt,
        told,
        told.stream().filter(Changed::isTurned).map(Changed::result).toList(),
        unchanged,
        refused.stream().filter(each -> result.test(each.result())).toList());
  }

  private static Stream<Changed> changed(Recalculation.Outcome outcome) {
    return outcome.changed().stream()
        .map(
            result -> {
              RecordedResult.Revision after = result.latest();
              RecordedResult.Revision before = result.revisions().get(after.revision() - 2);
              return new Changed(
                  result.id(),
                  Objects.requireNonNull(outcome.stream().line()),
                  outcome.stream().slug(),
                  result.batch(),
                  result.sampledAt(),
                  after.revision(),
                  after.assessment().result().unit(),
                  State.of(before),
                  State.of(after));
            });
  }
}
