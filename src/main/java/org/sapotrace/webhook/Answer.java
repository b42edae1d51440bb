package org.sapotrace.webhook;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * What came of sending a message.
 *
 * @param status of HTTP; null where there was no answer
 * @param problem what went wrong, in a sentence; null where the receiver took the message
 * @param retryAfter before when the receiver wants no other try; null where it did not say
 */
public record Answer(
    @Nullable Integer status, @Nullable String problem, @Nullable Instant retryAfter) {

  private static final int GONE = 410;

  static Answer of(int status, @Nullable Instant retryAfter) {
    boolean taken = status >= 200 && status <= 299;
    return new Answer(
        status, taken ? null : "The receiver answered %d.".formatted(status), retryAfter);
  }

  static Answer none(String problem) {
    return new Answer(null, problem, null);
  }

  /** Whether the receiver took the message. */
  public boolean isTaken() {
    return problem == null;
  }

  /** Whether the receiver wants no further message. */
  public boolean isGone() {
    return status != null && status == GONE;
  }
}
