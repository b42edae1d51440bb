package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;

/**
 * A pattern that is unlikely while the process is in control. One condition that continues is one
 * signal that grows.
 *
 * @param side on which side of the centre, or which way
 * @param limitsRevision the limits it was found under
 * @param result the result at which it was raised
 * @param openedAt when that sample was taken
 * @param start when the change is estimated to have begun
 * @param raisedAt when the service raised it
 * @param firstWindow the results that first made up the pattern, in order
 * @param lastResult the latest result at which the condition still held
 * @param points at how many results running it has held
 * @param text the signal in words
 * @param lapse why it no longer holds; null while it does
 * @param finding what somebody found out about it; null while nobody did
 */
public record Signal(
    UUID id,
    UUID stream,
    SignalRule rule,
    Side side,
    int limitsRevision,
    UUID result,
    Instant openedAt,
    Beginning start,
    Instant raisedAt,
    List<UUID> firstWindow,
    UUID lastResult,
    Instant lastSampledAt,
    int points,
    String text,
    @Nullable Lapse lapse,
    @Nullable Finding finding) {

  /** What becomes of a signal. */
  public enum State {
    /** Nobody has written down its cause. */
    UNEXPLAINED("unexplained"),
    /** Somebody has written down its cause. */
    EXPLAINED("explained"),
    /** Later knowledge took it back. */
    LAPSED("lapsed");

    private final String id;

    State(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /** When and why a signal turned out not to hold. */
  public record Lapse(Instant at, String reason) {}

  public Signal {
    firstWindow = List.copyOf(firstWindow);
  }

  public State state() {
    return lapse != null ? State.LAPSED : finding == null ? State.UNEXPLAINED : State.EXPLAINED;
  }

  /** Where it was raised. */
  Place opening() {
    return new Place(openedAt, result);
  }

  /** Where it was seen last. */
  Place end() {
    return new Place(lastSampledAt, lastResult);
  }

  /** Whether its condition held at that place. */
  boolean covers(Place place) {
    return !place.isBefore(opening()) && !end().isBefore(place);
  }

  /** The same signal under those limits, last seen at that point. */
  Signal seenAt(Point last, int newPoints, int newRevision) {
    return with(
        newRevision,
        last.result().result(),
        last.result().sampledAt(),
        newPoints,
        text,
        lapse,
        finding);
  }

  Signal withText(String newText) {
    return with(limitsRevision, lastResult, lastSampledAt, points, newText, lapse, finding);
  }

  Signal lapsed(Instant at, String reason) {
    Lapse why = new Lapse(at, reason);
    return with(limitsRevision, lastResult, lastSampledAt, points, text, why, finding);
  }

  Signal explained(Finding found) {
    return with(limitsRevision, lastResult, lastSampledAt, points, text, lapse, found);
  }

  /** A copy; what was fixed when the signal was raised stays. */
  private Signal with(
      int newRevision,
      UUID newLast,
      Instant newLastSampledAt,
      int newPoints,
      String newText,
      @Nullable Lapse newLapse,
      @Nullable Finding newFinding) {
    return new Signal(
        id,
        stream,
        rule,
        side,
        newRevision,
        result,
        openedAt,
        start,
        raisedAt,
        firstWindow,
        newLast,
        newLastSampledAt,
        newPoints,
        newText,
        newLapse,
        newFinding);
  }
}
