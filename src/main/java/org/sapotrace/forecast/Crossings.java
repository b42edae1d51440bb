package org.sapotrace.forecast;

import java.time.Instant;
import java.util.Optional;
import java.util.UUID;

/** Of which streams it was told that their forecast crosses the limit soon. */
public interface Crossings {

  /** The latest result when it was told; empty for a stream of which it is not told. */
  Optional<UUID> told(UUID stream);

  /**
   * Records that it was told. The caller holds the stream's lock.
   *
   * @param result the latest one then
   */
  void tell(UUID stream, UUID result, Instant now);

  /** Forgets it, as the forecast has moved away. The caller holds the stream's lock. */
  void forget(UUID stream);
}
