package org.sapotrace.notice;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * When a delivery that failed is tried again: soon at first, as most receivers are only being
 * started anew; then every 30 s for ten minutes; then by the example schedule of Standard Webhooks
 * 1.0.0 ("Deliverability and reliability") from its 5 minutes on, until three days after the first
 * try, when it is tried for the last time.
 */
final class RetryPlan {

  static final Duration LONGEST = Duration.ofDays(3);

  private static final List<Duration> PAUSES =
      Stream.of(
              Stream.of(1, 2, 4, 8, 15, 30).map(Duration::ofSeconds),
              Stream.generate(() -> Duration.ofSeconds(30)).limit(20),
              Stream.of(5, 30).map(Duration::ofMinutes),
              Stream.of(2, 5, 10, 14, 20, 24).map(Duration::ofHours))
          .flatMap(each -> each)
          .toList();

  private RetryPlan() {}

  /**
   * When to try again.
   *
   * @param attempts how often it was tried, at least once
   * @param firstTriedAt when it was tried first
   * @param earliest before when the receiver wants no other try; the past for none
   * @return empty where it was tried for the last time
   */
  static Optional<Instant> next(int attempts, Instant firstTriedAt, Instant now, Instant earliest) {
    Instant last = firstTriedAt.plus(LONGEST);
    if (!now.isBefore(last)) {
      return Optional.empty();
    }
    Instant planned = now.plus(PAUSES.get(Math.min(attempts, PAUSES.size()) - 1));
    Instant wanted = planned.isBefore(earliest) ? earliest : planned;
    return Optional.of(wanted.isBefore(last) ? wanted : last);
  }
}
