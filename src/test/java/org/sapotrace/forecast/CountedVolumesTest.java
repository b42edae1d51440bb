package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.sapotrace.bench.Samples.Sample;

/** What is taken for gone through, by hand. */
class CountedVolumesTest {

  private static final Instant FIRST = Instant.parse("2026-01-01T06:00:00Z");

  private final List<Sample> samples = new ArrayList<>();

  private void litres(double litres) {
    add(litres, null);
  }

  private void bedVolumes(double bedVolumes) {
    add(null, bedVolumes);
  }

  private void add(Double litres, Double bedVolumes) {
    int day = samples.size();
    samples.add(
        new Sample(
            UUID.randomUUID(),
            "B-" + day,
            FIRST.plus(Duration.ofDays(day)),
            20,
            null,
            null,
            litres,
            bedVolumes,
            null));
  }

  private List<Double> volumes() {
    Map<UUID, Double> volumes = Counting.of(samples).volumes();
    return samples.stream()
        .filter(sample -> volumes.containsKey(sample.result()))
        .map(sample -> volumes.get(sample.result()))
        .toList();
  }

  private String notes() {
    return String.join(" ", Counting.of(samples).notes());
  }

  /** Of a bed of 100 L, 15 000 bed volumes would be 1 500 000 L. */
  @Test
  void theLatestInTheWrongFieldIsLeftOutAndNamed() {
    add(12_000.0, 120.0);
    litres(13_000);
    litres(13_500);
    litres(14_000);
    bedVolumes(15_000);

    assertThat(volumes()).containsExactly(12_000.0, 13_000.0, 13_500.0, 14_000.0);
    assertThat(notes())
        .contains("leaps when it is converted to L by the bed of 100 L: B-4 of 2026-01-05 (result ")
        .contains("15000 bed volumes", "What is left counts from the sample of 2026-01-04.")
        .doesNotContain("not known", "tells the size");
  }

  @Test
  void theLatestInTheOtherUnitIsConvertedHoweverFarItGoes() {
    add(100.0, 1.0);
    litres(120);
    litres(130);
    litres(140);
    bedVolumes(15);
    assertThat(volumes()).containsExactly(100.0, 120.0, 130.0, 140.0, 1500.0);

    samples.clear();
    add(100.0, 1.0);
    bedVolumes(1.2);
    bedVolumes(1.4);
    litres(1500);
    assertThat(volumes()).containsExactly(1.0, 1.2, 1.4, 15.0);
  }

  @Test
  void twoThatAreConvertedDoNotGoBackAgainstEachOther() {
    add(26_000.0, 260.0);
    bedVolumes(280);
    bedVolumes(300);
    litres(32_000);
    litres(31_000);
    bedVolumes(340);

    assertThat(volumes()).containsExactly(260.0, 280.0, 300.0, 320.0, 340.0);
    assertThat(notes()).contains("goes back", "31000 L");
  }

  /** 140 L with 1.4 is a bed of 97 to 104 L, and 155 L with 1.5 one of 100 to 107 L. */
  @Test
  void bedsThatAgreeWithinTheRoundingAreOne() {
    add(140.0, 1.4);
    add(155.0, 1.5);
    bedVolumes(1.7);
    bedVolumes(1.9);
    litres(210);

    assertThat(volumes().get(4)).isCloseTo(210 / (295 / 2.9), within(1e-9));
    assertThat(notes()).contains("Converted to bed volumes by the bed of 101.7 L");
  }

  @Test
  void bedsThatDisagreeAreSaid() {
    add(14_000.0, 140.0);
    add(18_000.0, 150.0);
    bedVolumes(170);
    litres(21_000);

    assertThat(volumes()).containsExactly(140.0, 150.0, 170.0);
    assertThat(notes())
        .contains("not known in bed volumes", "21000 L")
        .contains("disagree on the size of the bed, from 100 to 120 L")
        .doesNotContain("tells the size");
  }

  @Test
  void aBedOfWhichNothingIsSaidIsAskedFor() {
    bedVolumes(140);
    bedVolumes(150);
    litres(16_000);

    assertThat(volumes()).containsExactly(140.0, 150.0);
    assertThat(notes())
        .contains("one titration with both litres and bedVolumes tells the size of the bed.");
  }
}
