package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

class DatedStrengthTest {

  private static final Instant START = Instant.parse("2026-01-01T00:00:00Z");

  private final DatedStrength earlier = strength(0, 0.0100, 0.00004, 8);
  private final DatedStrength later = strength(86_400, 0.0104, 0.00008, 5);

  /** Computed: a quarter of the way, so 0.75 of one and 0.25 of the other. */
  @Test
  void weighsNormalityAndUncertaintyByTime() {
    Measured<Normality> found = earlier.between(later, START.plusSeconds(21_600));

    assertThat(found.quantity().molesPerLitre()).isCloseTo(0.0101, within(1e-15));
    assertThat(found.standardUncertainty()).isCloseTo(0.00005, within(1e-15));
    assertThat(found.degreesOfFreedom()).isEqualTo(5);
  }

  @Test
  void isEitherStandardisationAtItsOwnTime() {
    assertThat(earlier.between(later, START).quantity()).isEqualTo(earlier.normality().quantity());
    assertThat(earlier.between(later, later.performedAt()).quantity())
        .isEqualTo(later.normality().quantity());
    assertThat(earlier.between(strength(0, 0.02, 0, 1), START).quantity())
        .isEqualTo(earlier.normality().quantity());
  }

  @Test
  void refusesATimeOutside() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> earlier.between(later, START.minusNanos(1)));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> earlier.between(later, later.performedAt().plusNanos(1000)))
        .withMessageContaining("is not between the standardisations");
  }

  private static DatedStrength strength(
      long second, double normality, double uncertainty, double degreesOfFreedom) {
    return new DatedStrength(
        START.plusSeconds(second),
        new Measured<>(new Normality(normality), uncertainty, degreesOfFreedom));
  }
}
