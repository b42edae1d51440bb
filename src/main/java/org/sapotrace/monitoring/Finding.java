package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What somebody found out about a signal.
 *
 * @param number counting the findings of the signal from 1; the latest one holds
 * @param cause of what the signal showed
 * @param action what was done about it; null for nothing
 * @param by who found it
 * @param exclude results that later baselines leave out because of it
 */
public record Finding(
    int number, String cause, @Nullable String action, String by, Instant at, List<UUID> exclude) {

  public Finding {
    exclude = List.copyOf(exclude);
  }

  /** Whether both say the same, whenever they did. */
  boolean saysTheSameAs(Finding other) {
    return equals(new Finding(number, other.cause, other.action, other.by, at, other.exclude));
  }
}
