package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

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
   */
  public record Revision(
      int revision,
      Instant recordedAt,
      @Nullable String reason,
      Entry entered,
      Assessment assessment) {}

  public RecordedResult {
    revisions = List.copyOf(revisions);
  }

  /** The state that counts. */
  public Revision latest() {
    return revisions.get(revisions.size() - 1);
  }
}
