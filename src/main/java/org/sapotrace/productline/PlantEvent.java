package org.sapotrace.productline;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Something that happened at a plant and may show in its results.
 *
 * @param line the slug of the line
 * @param at when it happened
 * @param note what was done; null for none
 * @param streams the slugs of the streams that it touches
 * @param newPhase whether a new phase of them begins: a sample taken then or later belongs to it
 */
public record PlantEvent(
    UUID id,
    String line,
    Kind kind,
    Instant at,
    @Nullable String note,
    List<String> streams,
    boolean newPhase,
    Instant recordedAt) {

  /** What kind of thing happened. */
  public enum Kind {
    TITRANT_CHANGE("titrant-change"),
    MEDIA_CHANGE("media-change"),
    FEED_CHANGE("feed-change"),
    MAINTENANCE("maintenance"),
    OTHER("other");

    private final String id;

    Kind(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  public PlantEvent {
    streams = List.copyOf(streams);
  }
}
