package org.sapotrace.http;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.time.InstantSource;
import java.util.Map;
import java.util.concurrent.atomic.AtomicReference;
import org.junit.jupiter.api.Test;

/** The fields as draft-ietf-httpapi-ratelimit-headers-10 has them, sections 3 and 4. */
class RateLimitTest {

  private final AtomicReference<Instant> now =
      new AtomicReference<>(Instant.parse("2026-03-04T09:20:18.5Z"));
  private final InstantSource clock = now::get;

  @Test
  void countsTheRequestsOfAMinuteForEachCaller() {
    RateLimit limit = new RateLimit(2, clock);

    assertThat(limit.count("a").headers())
        .isEqualTo(Map.of("RateLimit-Policy", "\"key\";q=2;w=60", "RateLimit", "\"key\";r=1;t=42"));
    assertThat(limit.count("a").isExceeded()).isFalse();
    assertThat(limit.count("b").headers()).containsEntry("RateLimit", "\"key\";r=1;t=42");
    RateLimit.Standing beyond = limit.count("a");
    assertThat(beyond.isExceeded()).isTrue();
    assertThat(beyond.headers())
        .containsEntry("RateLimit", "\"key\";r=0;t=42")
        .containsEntry("Retry-After", "42");
  }

  @Test
  void beginsAnewWithTheNextMinuteAndAfterAClockSteppedBack() {
    RateLimit limit = new RateLimit(1, clock);
    limit.count("a");
    assertThat(limit.count("a").isExceeded()).isTrue();

    now.set(Instant.parse("2026-03-04T09:21:00Z"));
    assertThat(limit.count("a").headers()).containsEntry("RateLimit", "\"key\";r=0;t=60");
    now.set(Instant.parse("2026-03-04T09:19:59.9Z"));
    assertThat(limit.count("a").headers()).containsEntry("RateLimit", "\"key\";r=0;t=1");
  }

  @Test
  void saysNothingWhereThereIsNoLimit() {
    RateLimit none = new RateLimit(0, clock);
    for (int i = 0; i < 1_000; i++) {
      assertThat(none.count("a").isExceeded()).isFalse();
    }
    assertThat(none.count("a").headers()).isEmpty();
  }
}
