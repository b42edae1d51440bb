package org.sapotrace.bench;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What was titrated with before each of some entries of a stream, asked in the order of sampling.
 */
final class NormalitiesBefore {

  private final Results results;
  private final UUID stream;
  private @Nullable Entry last;

  NormalitiesBefore(Results results, UUID stream) {
    this.results = results;
    this.stream = stream;
  }

  /**
   * The normality of the titration before, in mol/L: the one asked about before, or the one on
   * record if this is the first. Null where it was none, or was made with a lot on record.
   */
  @Nullable Double before(Entry entry) {
    Entry before = last == null ? onRecord(entry.sampledAt()) : last;
    last = entry;
    return before instanceof Titration titration
        ? titration.readings().titrant().normality()
        : null;
  }

  private @Nullable Entry onRecord(Instant sampledAt) {
    // A correction does not come before itself; the record keeps microseconds.
    return results
        .lastCounting(stream, sampledAt.minus(1, ChronoUnit.MICROS))
        .map(result -> result.latest().entered())
        .orElse(null);
  }
}
