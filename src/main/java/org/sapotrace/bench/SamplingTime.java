package org.sapotrace.bench;

import java.time.Duration;
import java.time.Instant;
import org.sapotrace.refusal.Refusal;

/** When a sample may have been taken, or a standardisation made. */
final class SamplingTime {

  /** No sample on record is older; a year that is misread would stretch every chart. */
  static final Instant EARLIEST = Instant.parse("1900-01-01T00:00:00Z");

  /** How far ahead of this service's clock another clock may be. */
  private static final Duration AHEAD = Duration.ofMinutes(5);

  private SamplingTime() {}

  /**
   * Checks the time of an entry.
   *
   * @throws Refusal for a time before {@link #EARLIEST}, or more than five minutes ahead
   */
  static void check(Entry entry, Instant now) {
    boolean standardised = entry instanceof StandardisedTitrant;
    String pointer = standardised ? "#/performedAt" : "#/sampledAt";
    String what = standardised ? "standardisation" : "sample";
    Instant at = entry.sampledAt();
    if (at.isBefore(EARLIEST)) {
      throw Refusal.impossible(pointer, "The %s is dated %s: check the year.".formatted(what, at));
    }
    if (at.isAfter(now.plus(AHEAD))) {
      throw Refusal.impossible(
          pointer,
          "The %s is dated %s, and here it is %s: check the date and its offset."
              .formatted(what, at, now));
    }
  }
}
