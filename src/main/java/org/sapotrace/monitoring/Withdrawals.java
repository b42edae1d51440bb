package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The results that were taken off the charts, as whoever keeps the record tells it. */
public interface Withdrawals {

  /**
   * A result that no longer counts.
   *
   * @param sampledAt when the sample was taken
   * @param value what was found last, in the stream's unit
   */
  record Withdrawn(Instant sampledAt, double value) {}

  /**
   * The withdrawn results of a stream, in the order of sampling.
   *
   * @param from the first time of sampling, inclusive; null for no bound
   * @param to the last time of sampling, inclusive; null for no bound
   */
  List<Withdrawn> between(UUID stream, @Nullable Instant from, @Nullable Instant to);
}
