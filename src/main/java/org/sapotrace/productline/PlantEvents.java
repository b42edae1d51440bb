package org.sapotrace.productline;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The events on record. */
public interface PlantEvents {

  /**
   * Which events of a line are asked for.
   *
   * @param from the first time, inclusive; null for no bound
   * @param to the last time, inclusive; null for no bound
   * @param after those behind this one, in the order of time, then of recording; null for the first
   */
  record Selection(@Nullable Instant from, @Nullable Instant to, @Nullable Place after) {}

  /** Where an event stands in that order. */
  record Place(Instant at, UUID id) {}

  void add(PlantEvent event);

  Optional<PlantEvent> event(UUID id);

  /** The identifier made last in a line; empty before the first. */
  Optional<UUID> lastIdentifier(String line);

  List<PlantEvent> ofLine(String line, Selection selection, int most);

  /** The events that touch a stream, in order of time. */
  List<PlantEvent> touching(String line, String stream);

  /** Those of them that begin a new phase. */
  List<PlantEvent> beginningPhases(String line, String stream);
}
