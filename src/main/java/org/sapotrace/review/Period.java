package org.sapotrace.review;

import java.time.Duration;
import java.time.Instant;

/**
 * The time that a review looks at.
 *
 * @param from the first time of sampling, inclusive
 * @param to the last time of sampling, inclusive
 */
public record Period(Instant from, Instant to) {

  /** How far a review looks back unless it is told. */
  public static final Duration USUAL = Duration.ofDays(90);

  /** The longest period of a review: two years, one of them a leap year. */
  static final Duration LONGEST = Duration.ofDays(731);

  /** Refuses what is no period, or too long a one, with {@link IllegalArgumentException}. */
  public Period {
    if (!from.isBefore(to)) {
      throw new IllegalArgumentException(
          "A review covers a period, and from (%s) is not before to (%s): name an earlier from, or a later to."
              .formatted(from, to));
    }
    if (Duration.between(from, to).compareTo(LONGEST) > 0) {
      throw new IllegalArgumentException(
          "A review covers two years at most: ask for a shorter period, or for several reviews.");
    }
  }

  boolean holds(Instant at) {
    return !at.isBefore(from) && !at.isAfter(to);
  }

  /** Whether any of it lies between two times, both inclusive. */
  boolean meets(Instant first, Instant last) {
    return !first.isAfter(to) && !last.isBefore(from);
  }
}
