package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.sapotrace.bench.Samples.Sample;

/** Which samples are of one batch, and which soap before goes with the others. */
class PairingTest {

  private static final Instant FIRST = Instant.parse("2026-01-01T06:00:00Z");

  private static Sample sample(double day, double value, Double detectionLimit) {
    return new Sample(
        UUID.randomUUID(),
        "B-1",
        FIRST.plus(Duration.ofMinutes(Math.round(day * 24 * 60))),
        value,
        null,
        detectionLimit,
        null,
        null,
        null);
  }

  private static Sample sample(double day) {
    return sample(day, 1200, null);
  }

  @Test
  void theOneThatIsPassedOverIsTheNearestInTime() {
    Sample early = sample(0);
    Sample late = sample(32);

    assertThat(Pairing.of(sample(30), List.of(early, late)).passedOver()).isEqualTo(late);
    assertThat(Pairing.of(sample(10), List.of(early, late)).passedOver()).isEqualTo(early);
    assertThat(Pairing.of(sample(10), List.of()).passedOver()).isNull();
  }

  @Test
  void aNameThatComesBackAfterAWeekIsAnotherWashing() {
    Sample first = sample(1);
    Sample again = sample(8);
    Sample other = sample(15.1);

    assertThat(Washes.latestOfEach(List.of(first, again, other))).containsExactly(again, other);
  }

  /**
   * Behind a tower that holds: 0.3 among some 3 is a tenth, and all of them are next to nothing.
   */
  @Test
  void noiseWithinDetectionIsNotCalledMistyped() {
    assertThat(strays(5.0, 3, 2, 4, 2.5, 0.3, 3, 2)).isEmpty();
    assertThat(strays(null, 3, 2, 4, 2.5, 0.3, 3, 2)).hasSize(1);
    assertThat(strays(5.0, 3, 2, 4, 2.5, 1200, 3, 2))
        .singleElement()
        .asString()
        .contains("1200 mg/kg before B-1", "where others have some 5.");
  }

  private static List<String> strays(Double detectionLimit, double... soap) {
    List<Inlets.Before> before = new ArrayList<>();
    for (double each : soap) {
      Sample outlet = sample(before.size());
      before.add(Inlets.Before.found(outlet, sample(before.size(), each, detectionLimit)));
    }
    return Inlets.Known.of(before, List.of()).notes();
  }
}
