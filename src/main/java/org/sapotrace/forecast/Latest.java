package org.sapotrace.forecast;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.PlantEvent;

/** Since when what is foreseen goes on undisturbed. */
final class Latest {

  private Latest() {}

  /** The time of the last of some events in order of time; null for none, which is since ever. */
  static @Nullable Instant of(List<PlantEvent> events) {
    return events.isEmpty() ? null : events.get(events.size() - 1).at();
  }
}
