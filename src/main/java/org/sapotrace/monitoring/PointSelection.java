package org.sapotrace.monitoring;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Which points of a stream are asked for.
 *
 * @param last the latest so many; null for no such bound
 * @param from the first time of sampling, inclusive; null for no bound
 * @param to the last time of sampling, inclusive; null for no bound
 */
public record PointSelection(@Nullable Integer last, @Nullable Instant from, @Nullable Instant to) {

  public static final PointSelection ALL = new PointSelection(null, null, null);

  /** Whether a period is asked for. */
  boolean isOfPeriod() {
    return from != null || to != null;
  }
}
