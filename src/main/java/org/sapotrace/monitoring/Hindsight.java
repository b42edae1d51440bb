package org.sapotrace.monitoring;

import java.time.Duration;
import java.time.Instant;

/**
 * From which samples on what comes to light still calls for somebody. What is found of older ones
 * is on record like everything else, and nobody is sent for.
 *
 * @param until the first time of sampling of which somebody is told
 */
public record Hindsight(Instant until) {

  /** Somebody is told of everything. */
  public static final Hindsight NONE = new Hindsight(Instant.MIN);

  /** Nobody is told of anything: it was there before anybody looked. */
  static final Hindsight WHOLE = new Hindsight(Instant.MAX);

  /** Long enough for what a bench found on one day and hands in on the next. */
  private static final Duration RECENT = Duration.ofHours(24);

  /** That of an import, which brings the past along with what is of today. */
  public static Hindsight ofImport(Instant now) {
    return new Hindsight(now.minus(RECENT));
  }

  /** Whether nobody is told of a sample taken then. */
  public boolean covers(Instant sampledAt) {
    return sampledAt.isBefore(until);
  }
}
