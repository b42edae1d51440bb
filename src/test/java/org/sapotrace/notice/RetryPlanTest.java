package org.sapotrace.notice;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;

class RetryPlanTest {

  private static final Instant FIRST = Instant.parse("2026-03-04T09:20:00Z");

  /**
   * The interface's own words: 1, 2, 4, 8, 15, 30 s, then every 30 s for ten minutes, then the
   * example schedule of Standard Webhooks 1.0.0 (5 min, 30 min, 2, 5, 10, 14, 20 and 24 h) to three
   * days.
   */
  @Test
  void pausesAsTheInterfaceSays() {
    List<Long> expected = new ArrayList<>(List.of(1L, 2L, 4L, 8L, 15L, 30L));
    expected.addAll(Collections.nCopies(20, 30L));
    expected.addAll(List.of(300L, 1_800L, 7_200L, 18_000L, 36_000L, 50_400L, 72_000L));
    long sum = expected.stream().mapToLong(Long::longValue).sum();
    expected.add(Duration.ofDays(3).toSeconds() - sum);

    List<Long> found = new ArrayList<>();
    Instant now = FIRST;
    Optional<Instant> next = RetryPlan.next(1, FIRST, now, Instant.MIN);
    while (next.isPresent()) {
      found.add(Duration.between(now, next.get()).toSeconds());
      now = next.get();
      next = RetryPlan.next(found.size() + 1, FIRST, now, Instant.MIN);
    }
    assertThat(found).isEqualTo(expected);
    assertThat(now).isEqualTo(FIRST.plus(Duration.ofDays(3)));
  }

  @Test
  void leavesTheReceiverAloneForAsLongAsItWants() {
    Instant wanted = FIRST.plusSeconds(90);
    assertThat(RetryPlan.next(1, FIRST, FIRST, wanted)).contains(wanted);
    assertThat(RetryPlan.next(27, FIRST, FIRST, wanted)).contains(FIRST.plusSeconds(300));
  }

  @Test
  void triesOnTheThirdDayHoweverLongTheReceiverWantsToBeLeftAlone() {
    assertThat(RetryPlan.next(1, FIRST, FIRST, FIRST.plus(Duration.ofDays(30))))
        .contains(FIRST.plus(Duration.ofDays(3)));
  }

  @Test
  void goesOnWhenAServiceThatWasStoppedTriesAnew() {
    // More tries than there are pauses, as each start makes what waits due.
    assertThat(RetryPlan.next(500, FIRST, FIRST.plusSeconds(1), Instant.MIN))
        .contains(FIRST.plusSeconds(1).plus(Duration.ofHours(24)));
  }
}
