package org.sapotrace.productline;

import java.time.Duration;
import java.time.Instant;
import org.sapotrace.refusal.Refusal;

/** When something may have happened that is recorded. */
public final class RecordedTime {

  /** Nothing on record is older; a year that is misread would stretch every chart. */
  public static final Instant EARLIEST = Instant.parse("1900-01-01T00:00:00Z");

  /** How far ahead of this service's clock another clock may be. */
  private static final Duration AHEAD = Duration.ofMinutes(5);

  private RecordedTime() {}

  /**
   * Checks a time.
   *
   * @param pointer the JSON pointer of the field
   * @param what happened then, such as {@code sample}
   * @throws Refusal for a time before {@link #EARLIEST}, or more than five minutes ahead
   */
  public static void check(String pointer, String what, Instant at, Instant now) {
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
