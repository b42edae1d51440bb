package org.sapotrace.bench;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What was titrated with before each of some entries of a stream, asked in the order of sampling.
 */
final class NormalitiesBefore {

  private final Results results;
  private final UUID stream;
  private @Nullable Titration last;

  NormalitiesBefore(Results results, UUID stream) {
    this.results = results;
    this.stream = stream;
  }

  /**
   * The normality of the titration before, in mol/L: of the last one that was taken, or else of the
   * last one on record. Null where there was none, or it was made with a lot on record.
   */
  @Nullable Double before(Entry entry) {
    if (!(entry instanceof Titration)) {
      return null;
    }
    Titration before =
        last == null ? results.titrationBefore(stream, entry.sampledAt()).orElse(null) : last;
    return before == null ? null : before.readings().titrant().normality();
  }

  /** Takes an entry into account that is being recorded. */
  void add(Entry entry) {
    last = entry instanceof Titration titration ? titration : last;
  }
}
