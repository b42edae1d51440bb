package org.sapotrace.pages;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.forecast.AttributedShift;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;

/**
 * Something to be done about a stream.
 *
 * @param action what, in a few words
 * @param stream its name
 * @param slug its name on the page
 * @param style of the edge
 * @param reason why, in sentences
 * @param links where to go for it
 * @param signals that it is about
 * @param earlier signals without a finding, which wait behind those
 */
public record LineTask(
    Urgency urgency,
    String action,
    String stream,
    String slug,
    String style,
    List<String> reason,
    List<Link> links,
    List<ToldSignal> signals,
    List<ToldSignal> earlier) {

  /** What comes first. */
  public enum Urgency {
    /** A batch does not conform, or nobody can say whether it does. */
    BATCH,
    /** The process has moved, and nobody knows why. */
    CAUSE,
    /** It had moved, and nobody wrote down why. */
    FINDING,
    /** It has moved, and somebody knows why. */
    WATCH,
    /** Nobody stands behind the limits that judge. */
    LIMITS
  }

  /** Where to go. */
  public record Link(String path, String words) {}

  static List<LineTask> of(StreamStanding standing, WallClock clock) {
    return Stream.of(batch(standing), signals(standing, clock), limits(standing))
        .flatMap(Optional::stream)
        .toList();
  }

  private static Optional<LineTask> batch(StreamStanding standing) {
    Verdict verdict = standing.verdict();
    if (standing.latest() == null
        || verdict == null
        || verdict.outcome() == Verdict.Outcome.CONFORMING) {
      return Optional.empty();
    }
    RecordedResult result = standing.latest().result();
    String path = "/results/" + result.id();
    List<Link> links = new ArrayList<>(List.of(new Link(path, "Batch " + result.batch())));
    int more =
        result.latest().entered() instanceof Titration
            ? ResultPage.more(result.latest().assessment())
            : 0;
    if (more > 0) {
      links.add(new Link(path + "/correction", "Enter " + Words.more(more)));
    }
    return Optional.of(
        about(
            standing,
            Urgency.BATCH,
            Words.advice(verdict),
            verdict.outcome().id(),
            List.of(verdict.reason()),
            links));
  }

  private static Optional<LineTask> signals(StreamStanding standing, WallClock clock) {
    List<Signal> pressing = standing.pressing();
    if (pressing.isEmpty()) {
      return Optional.empty();
    }
    boolean isKnown = pressing.stream().allMatch(signal -> signal.finding() != null);
    LineTask task =
        isKnown
            ? watch(standing)
            : standing.goingOn().isEmpty() ? writeDown(standing) : findTheCause(standing);
    return Optional.of(task.telling(told(pressing, clock), told(standing.earlier(), clock)));
  }

  private static LineTask watch(StreamStanding standing) {
    return about(standing, Urgency.WATCH, "Watch whether it ends", "none", List.of(), List.of());
  }

  /** Who can name no cause of what is over cannot help either. */
  private static LineTask writeDown(StreamStanding standing) {
    return about(
        standing,
        Urgency.FINDING,
        "Write down what was found",
        "none",
        moved(standing.moved(), AttributedShift::namesACause),
        List.of());
  }

  private static LineTask findTheCause(StreamStanding standing) {
    return about(
        standing,
        Urgency.CAUSE,
        "Find the cause",
        "signalling",
        moved(standing.moved(), shift -> true),
        List.of());
  }

  private static List<String> moved(
      @Nullable AttributedShift shift, Predicate<AttributedShift> isWorthSaying) {
    return shift == null || !isWorthSaying.test(shift)
        ? List.of()
        : Stream.concat(Stream.of(shift.reason()), Stream.ofNullable(shift.wanted())).toList();
  }

  private static List<ToldSignal> told(List<Signal> signals, WallClock clock) {
    return signals.stream().map(signal -> ToldSignal.of(signal, clock)).toList();
  }

  /** A removal stream takes over the limits of its outlet, so nobody adopts them for itself. */
  private static Optional<LineTask> limits(StreamStanding standing) {
    LimitsRevision limits = standing.limits();
    return limits == null
            || limits.status() != LimitsRevision.Status.TRIAL
            || standing.stream().isKeptRemoval()
        ? Optional.empty()
        : Optional.of(
            about(
                standing,
                Urgency.LIMITS,
                "Adopt control limits",
                "none",
                List.of(
                    "It is judged by trial limits, which the service laid down by itself: nobody stands behind them, and no notice goes out."),
                List.of()));
  }

  private static LineTask about(
      StreamStanding standing,
      Urgency urgency,
      String action,
      String style,
      List<String> reason,
      List<Link> links) {
    return new LineTask(
        urgency,
        action,
        standing.stream().name(),
        standing.stream().slug(),
        style,
        reason,
        links,
        List.of(),
        List.of());
  }

  private LineTask telling(List<ToldSignal> now, List<ToldSignal> before) {
    return new LineTask(urgency, action, stream, slug, style, reason, links, now, before);
  }

  /** The earlier signals in words; there may be more than are told. */
  public String earlierInWords() {
    int count = earlier.size();
    return count + signals.size() >= Standings.MOST_SIGNALS
        ? "The latest %d earlier signals without a finding".formatted(count)
        : count == 1
            ? "1 earlier signal without a finding"
            : count + " earlier signals without a finding";
  }
}
