package org.sapotrace.productline;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.SplittableRandom;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class RecordIdentifierTest {

  private static final Instant NOW = Instant.parse("2026-03-04T09:20:00.123Z");

  /** RFC 9562, appendix A.6: Tuesday, February 22, 2022 2:22:22.00 PM GMT-05:00. */
  @Test
  void isLaidOutAsInTheRfc() {
    assertThat(RecordIdentifier.of(0x017F22E279B0L, 0xCC3, 0x18C4DC0C0C07398FL))
        .isEqualTo(UUID.fromString("017F22E2-79B0-7CC3-98C4-DC0C0C07398F"));
  }

  @Test
  void carriesItsTime() {
    UUID identifier = RecordIdentifier.after(null, NOW);
    assertThat(RecordIdentifier.millisOf(identifier)).isEqualTo(NOW.toEpochMilli());
    assertThat(identifier.version()).isEqualTo(7);
    assertThat(identifier.variant()).isEqualTo(2);
  }

  @Test
  void risesWhateverTheClockDoes() {
    SplittableRandom random = new SplittableRandom(1);
    UUID last = null;
    for (int i = 0; i < 20_000; i++) {
      Instant now = NOW.plusMillis(random.nextInt(-50, 50));
      UUID next = RecordIdentifier.after(last, now, random);
      assertThat(next.version()).isEqualTo(7);
      assertThat(next.variant()).isEqualTo(2);
      if (last != null) {
        assertThat(next.toString()).isGreaterThan(last.toString());
      }
      last = next;
    }
  }

  @Test
  void carriesOverWhenItsRandomBitsAreUsedUp() {
    UUID full = RecordIdentifier.of(5, 0xFFF, -1L);
    assertThat(RecordIdentifier.after(full, Instant.ofEpochMilli(5)))
        .isEqualTo(RecordIdentifier.of(6, 0, 0));
    UUID lowFull = RecordIdentifier.of(5, 0x00F, -1L);
    assertThat(RecordIdentifier.after(lowFull, Instant.ofEpochMilli(5)))
        .isEqualTo(RecordIdentifier.of(5, 0x010, 0));
  }
}
