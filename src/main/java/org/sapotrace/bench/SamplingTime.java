package org.sapotrace.bench;

import java.time.Instant;
import org.sapotrace.productline.RecordedTime;
import org.sapotrace.refusal.Refusal;

/** When a sample may have been taken, or a standardisation made. */
final class SamplingTime {

  /** No sample on record is older. */
  static final Instant EARLIEST = RecordedTime.EARLIEST;

  private SamplingTime() {}

  /**
   * Checks the time of an entry.
   *
   * @throws Refusal as {@link RecordedTime#check}
   */
  static void check(Entry entry, Instant now) {
    boolean standardised = entry instanceof StandardisedTitrant;
    RecordedTime.check(
        standardised ? "#/performedAt" : "#/sampledAt",
        standardised ? "standardisation" : "sample",
        entry.sampledAt(),
        now);
  }
}
