package org.sapotrace.http;

import java.time.Instant;
import java.time.InstantSource;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * How many requests each caller may make in a minute of the clock. Each process counts for itself:
 * behind two of them a caller has up to twice as many.
 *
 * <p>It is told as draft-ietf-httpapi-ratelimit-headers-10 has it: {@code RateLimit-Policy} and
 * {@code RateLimit}, with quota, window, rest and seconds until it is whole again.
 */
public final class RateLimit {

  private static final int WINDOW_SECONDS = 60;

  /** The requests of one caller in a minute, which is counted from 1970. */
  private record Used(long minute, int requests) {}

  private final int perMinute;
  private final InstantSource clock;
  private final Map<String, Used> used = new ConcurrentHashMap<>();

  /**
   * A limit.
   *
   * @param perMinute requests, at least 1; 0 for as many as anybody likes
   */
  public RateLimit(int perMinute, InstantSource clock) {
    this.perMinute = perMinute;
    this.clock = clock;
  }

  /**
   * How a caller stands.
   *
   * @param perMinute what the caller may; 0 for as many as it likes
   * @param requests what the caller has asked in this minute
   * @param secondsLeft of this minute, at least 1
   */
  record Standing(int perMinute, int requests, int secondsLeft) {

    boolean isExceeded() {
      return perMinute > 0 && requests > perMinute;
    }

    Map<String, String> headers() {
      if (perMinute == 0) {
        return Map.of();
      }
      String policy = "\"key\";q=%d;w=%d".formatted(perMinute, WINDOW_SECONDS);
      String left = "\"key\";r=%d;t=%d".formatted(Math.max(0, perMinute - requests), secondsLeft);
      return isExceeded()
          ? Map.of(
              "RateLimit-Policy",
              policy,
              "RateLimit",
              left,
              "Retry-After",
              String.valueOf(secondsLeft))
          : Map.of("RateLimit-Policy", policy, "RateLimit", left);
    }
  }

  /** Counts one more request of a caller. */
  Standing count(String caller) {
    if (perMinute == 0) {
      return new Standing(0, 0, WINDOW_SECONDS);
    }
    Instant now = clock.instant();
    long minute = Math.floorDiv(now.getEpochSecond(), WINDOW_SECONDS);
    // What was refused counts no further, so that the number cannot run over.
    Used counted =
        used.merge(
            caller,
            new Used(minute, 1),
            (before, first) ->
                before.minute == minute
                    ? new Used(minute, Math.min(before.requests, perMinute) + 1)
                    : first);
    int second = Math.floorMod(now.getEpochSecond(), WINDOW_SECONDS);
    return new Standing(perMinute, counted.requests, WINDOW_SECONDS - second);
  }
}
