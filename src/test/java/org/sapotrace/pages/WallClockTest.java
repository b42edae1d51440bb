package org.sapotrace.pages;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Clocks in Berlin were put forward on 29 March 2026 at 02:00 and back on 25 October at 03:00. */
class WallClockTest {

  private static final WallClock BERLIN = new WallClock(ZoneId.of("Europe/Berlin"));

  @Test
  void readsATimeAsTheClockShowsIt() {
    assertThat(BERLIN.moment("2026-03-04T10:20")).isEqualTo("2026-03-04T09:20:00Z");
    assertThat(BERLIN.moment("2026-07-04 10:20:30")).isEqualTo("2026-07-04T08:20:30Z");
  }

  @Test
  void refusesATimeThatNoClockShowed() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BERLIN.moment("2026-03-29T02:30"))
        .withMessageContaining("no such time in Europe/Berlin");
  }

  @Test
  void asksForTheOffsetOfAnHourThatCameTwice() {
    assertThatThrownBy(() -> BERLIN.moment("2026-10-25T02:30"))
        .isInstanceOf(WallClock.HourTwice.class)
        .hasMessageContaining("+02:00 for the first, or +01:00 for the second");
    assertThat(WallClock.moment("2026-10-25T02:30", ZoneOffset.ofHours(1)))
        .isEqualTo("2026-10-25T01:30:00Z");
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "yesterday", "2026-02-30T10:00", "04/03/2026", "2026-03-04"})
  void refusesWhatIsNoTime(String text) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> BERLIN.moment(text))
        .withMessage("Write date and time such as 2026-03-04 09:20.");
  }

  @Test
  void readsOffsets() {
    assertThat(WallClock.offset("+05:30")).isEqualTo(ZoneOffset.ofHoursMinutes(5, 30));
    assertThat(WallClock.offset("Z")).isEqualTo(ZoneOffset.UTC);
    assertThatIllegalArgumentException().isThrownBy(() -> WallClock.offset("Berlin"));
  }

  @Test
  void namesItselfWithItsOffset() {
    assertThat(BERLIN.name(Instant.parse("2026-03-04T09:20:00Z")))
        .isEqualTo("Europe/Berlin, UTC+01:00");
    assertThat(new WallClock(ZoneId.of("Etc/UTC")).name(Instant.EPOCH)).isEqualTo("UTC");
    assertThat(new WallClock(ZoneOffset.UTC).name(Instant.EPOCH)).isEqualTo("UTC");
  }
}
