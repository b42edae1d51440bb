package org.sapotrace.review;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.PrecisionReport;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Entries;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.JudgedPoint;
import org.sapotrace.monitoring.Judgement;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Stream;

/**
 * What is on record of a stream in a period.
 *
 * @param chart of the period
 * @param results in the order of sampling, withdrawn ones among them; never empty
 * @param signals whose condition held somewhere in the period, lapsed ones among them
 * @param precision of its titrations in the period
 * @param done who adopted limits and changed results, in order
 */
record StreamReview(
    Chart chart,
    List<RecordedResult> results,
    List<Signal> signals,
    PrecisionReport precision,
    List<Entries.Done> done) {

  private static final String UNTOLD = "nobody whom the ledger tells of";

  Stream stream() {
    return chart.stream();
  }

  /** The results that count. */
  List<RecordedResult> counting() {
    return results.stream().filter(result -> !result.latest().withdrawn()).toList();
  }

  List<RecordedResult> withOutcome(Verdict.Outcome outcome) {
    return counting().stream()
        .filter(
            result -> {
              Verdict verdict = verdict(result);
              return verdict != null && verdict.outcome() == outcome;
            })
        .toList();
  }

  static @Nullable Verdict verdict(RecordedResult result) {
    return result.latest().assessment().verdict();
  }

  static double value(RecordedResult.Revision revision) {
    return revision.assessment().result().value();
  }

  List<Signal> signals(Signal.State state) {
    return signals.stream().filter(signal -> signal.state() == state).toList();
  }

  /** The limits that judged the last result of the period; null where none did. */
  @Nullable LimitsRevision limitsAtTheEnd() {
    Judgement last = lastJudgement();
    return last == null ? null : chart.limits().get(last.limitsRevision() - 1);
  }

  /** The rules whose signals went on at the last result of the period. */
  Set<SignalRule> signallingAtTheEnd() {
    Judgement last = lastJudgement();
    LimitsRevision limits = limitsAtTheEnd();
    return last == null || limits == null
        ? Set.of()
        : last.state().signalling(limits.detectors()).keySet();
  }

  private @Nullable Judgement lastJudgement() {
    List<JudgedPoint> points = chart.points();
    return points.isEmpty() ? null : points.get(points.size() - 1).judgement();
  }

  /** Who adopted the limits of that number. */
  String adopter(int revision) {
    String subject = String.valueOf(revision);
    return done.stream()
        .filter(each -> each.act() == Act.LIMITS_ADOPTED && each.subject().equals(subject))
        .map(Entries.Done::actor)
        .findFirst()
        .orElse(UNTOLD);
  }

  /** Who recorded a revision of a result, counting from 1, of which the first is no change. */
  String changer(RecordedResult result, int revision) {
    String subject = result.id().toString();
    List<String> actors =
        done.stream()
            .filter(each -> each.act() != Act.LIMITS_ADOPTED && each.subject().equals(subject))
            .map(Entries.Done::actor)
            .toList();
    // From the end, as what is older than the ledger has no entry.
    int index = actors.size() - 1 - (result.latest().revision() - revision);
    return index < 0 ? UNTOLD : actors.get(index);
  }
}
