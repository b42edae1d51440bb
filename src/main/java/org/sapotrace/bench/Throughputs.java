package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** What had gone through towers and flushes, as it stands on record. */
public interface Throughputs {

  /**
   * What a result says that had gone through.
   *
   * @param litres in L; null where it does not say
   * @param bedVolumes in volumes of the bed; null likewise
   */
  record Counted(
      UUID result, Instant sampledAt, @Nullable Double litres, @Nullable Double bedVolumes) {}

  /**
   * What results of a stream say that were sampled in a time, and in each unit the last one before
   * and the first one behind it, in any order.
   *
   * @param except a result that is left out
   */
  List<Counted> around(UUID stream, Instant from, Instant to, @Nullable UUID except);
}
