package org.sapotrace.notice;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A notice on its way to a subscriber.
 *
 * @param notice its identifier, which is that of the message
 * @param attempts how often it was tried
 * @param lastTriedAt null before it was tried
 * @param lastStatus of HTTP; null where there was no answer to the last try
 * @param lastProblem what went wrong at the last try, in a sentence; null for nothing
 * @param nextTryAt before when it is not tried again; null where it does not wait
 * @param deliveredAt when the receiver took it; null where it did not
 */
public record Delivery(
    UUID notice,
    NoticeType type,
    Instant recordedAt,
    State state,
    int attempts,
    @Nullable Instant lastTriedAt,
    @Nullable Integer lastStatus,
    @Nullable String lastProblem,
    @Nullable Instant nextTryAt,
    @Nullable Instant deliveredAt,
    String event) {

  /** How far it came. */
  public enum State {
    WAITING("waiting"),
    DELIVERED("delivered"),
    /** Tried in vain for three days; tried again when somebody asks for it. */
    PARKED("parked");

    private final String id;

    State(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }
}
