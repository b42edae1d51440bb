package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.PlantEvent;

/**
 * The phases of a stream. Results of two phases do not tell of each other: no run, no moving range
 * and no trial limits reach over the border.
 *
 * @param beginnings of all phases but the first, in order of time; a sample taken at one belongs to
 *     that phase
 */
public record Phases(List<Instant> beginnings) {

  public Phases {
    beginnings = List.copyOf(beginnings);
  }

  /** The phases that events begin. */
  static Phases of(List<PlantEvent> events) {
    return new Phases(
        events.stream()
            .filter(PlantEvent::newPhase)
            .map(PlantEvent::at)
            .sorted()
            .distinct()
            .toList());
  }

  /** When the phase of a sample began; null for the first phase. */
  @Nullable Instant beginning(Instant sampledAt) {
    return beginnings.stream()
        .filter(beginning -> !sampledAt.isBefore(beginning))
        .reduce((earlier, later) -> later)
        .orElse(null);
  }

  /** Whether samples taken at two times belong to different phases. */
  boolean separate(Instant one, Instant other) {
    return !Objects.equals(beginning(one), beginning(other));
  }

  /** Whether two results belong to different phases. */
  boolean separate(Point one, Point other) {
    return separate(one.result().sampledAt(), other.result().sampledAt());
  }
}
