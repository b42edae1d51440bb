package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

class StrengthHistoryTest {

  private static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

  private final StrengthHistory history =
      new StrengthHistory(
          List.of(found(0, 0.0100), found(100, 0.0104), found(100, 0.0102), found(200, 0.0100)));

  /** Computed: on the straight lines from one to the next, of two at one time from the last. */
  @ParameterizedTest
  @CsvSource({
    "-50, , 0.0100, 0.0100",
    "0, 0.0100, 0.0100, 0.0100",
    "25, 0.0100, 0.01005, 0.0100",
    "50, 0.0100, 0.0101, 0.0100",
    "75, 0.0100, 0.01015, 0.0102",
    "100, 0.0102, 0.0102, 0.0102",
    "150, 0.0102, 0.0101, 0.0102",
    "900, 0.0100, 0.0100, 0.0100"
  })
  void tellsTheStrengthAtATime(long second, Double latest, double interpolated, double nearest) {
    Instant at = START.plusSeconds(second);

    assertThat(history.latest(at).map(each -> each.normality().quantity().molesPerLitre()))
        .isEqualTo(Optional.ofNullable(latest));
    assertThat(history.interpolated(at).orElseThrow().quantity().molesPerLitre())
        .isCloseTo(interpolated, within(1e-15));
    assertThat(history.nearest(at).orElseThrow().normality().quantity().molesPerLitre())
        .isEqualTo(nearest);
  }

  @Test
  void forgetsWhatWasNotKnownYet() {
    assertThat(history.by(START.plusSeconds(99)).standardisations()).hasSize(1);
    assertThat(history.by(START.plusSeconds(100)).standardisations()).hasSize(3);
  }

  @Test
  void tellsNothingWithoutAStandardisation() {
    StrengthHistory none = new StrengthHistory(List.of());

    assertThat(none.latest(START)).isEmpty();
    assertThat(none.nearest(START)).isEmpty();
    assertThat(none.interpolated(START)).isEmpty();
  }

  private static DatedStrength found(long second, double normality) {
    return new DatedStrength(
        START.plusSeconds(second), Measured.of(new Normality(normality), 0.0001));
  }
}
