package org.sapotrace.review;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;

/** What a period leaves to be done, the most pressing first. */
record ToDo(LineReview review) {

  private static final int MOST_NAMES = 8;

  List<String> tasks() {
    List<String> tasks = new ArrayList<>();
    review.streams().forEach(stream -> decide(stream, tasks));
    review.streams().forEach(stream -> lookAt(stream, tasks));
    review.streams().forEach(stream -> explain(stream, tasks));
    review.streams().forEach(stream -> adopt(stream, tasks));
    return tasks;
  }

  private static void decide(StreamReview stream, List<String> tasks) {
    List<RecordedResult> failed = stream.withOutcome(Verdict.Outcome.NONCONFORMING);
    if (!failed.isEmpty()) {
      tasks.add(
          "%s: see what became of the batches that did not conform (%s)."
              .formatted(stream.stream().name(), batches(failed)));
    }
    List<RecordedResult> open = stream.withOutcome(Verdict.Outcome.INCONCLUSIVE);
    if (!open.isEmpty()) {
      tasks.add(
          "%s: titrate again where the result was inconclusive (%s)."
              .formatted(stream.stream().name(), batches(open)));
    }
  }

  private static String batches(List<RecordedResult> results) {
    return Words.names(results.stream().map(RecordedResult::batch).distinct().toList(), MOST_NAMES);
  }

  private static void lookAt(StreamReview stream, List<String> tasks) {
    if (!stream.signallingAtTheEnd().isEmpty()) {
      tasks.add(
          "%s: find the cause; at the end of the period its chart signals (%s)."
              .formatted(
                  stream.stream().name(),
                  stream.signallingAtTheEnd().stream()
                      .map(SignalRule::description)
                      .collect(Collectors.joining("; "))));
    }
  }

  private static void explain(StreamReview stream, List<String> tasks) {
    int open = stream.signals(Signal.State.UNEXPLAINED).size();
    if (open > 0) {
      tasks.add(
          "%s: write down what was found out about %s without a finding."
              .formatted(stream.stream().name(), Words.count(open, "signal")));
    }
  }

  private static void adopt(StreamReview stream, List<String> tasks) {
    LimitsRevision limits = stream.limitsAtTheEnd();
    if (limits == null || limits.status() != LimitsRevision.Status.ADOPTED) {
      tasks.add(
          "%s: adopt control limits; %s."
              .formatted(
                  stream.stream().name(),
                  limits == null
                      ? "nothing judged its results at the end of the period"
                      : "so far the service's own trial limits judge it"));
    }
  }
}
