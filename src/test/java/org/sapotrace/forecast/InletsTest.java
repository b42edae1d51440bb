package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;

/**
 * What counts as the soap before a tower or wash, where it was mistyped or sampled at odd times.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class InletsTest {

  private static final double RATE = 0.02;
  private static final double TAU = 550;

  /** A digit too few, a digit too many, and another number altogether. */
  @ParameterizedTest
  @ValueSource(doubles = {20, 120, 12_000})
  void aMistypedInletSteersNoTowerAndIsNamed(double mistyped) {
    for (int at : new int[] {0, 3, 6}) {
      Tower tower = Tower.make();
      tower.event("media-change", 0);
      String slip = "";
      for (int i = 0; i <= 6; i++) {
        JsonNode recorded = titrate(tower, 10 + i, 260 + 20 * i, i == at ? mistyped : 1200.0);
        slip = i == at ? recorded.get("id").asText() : slip;
      }
      JsonNode forecast = tower.forecast();

      assertThat(Tower.parameter(forecast, "k", "1/bed volumes")).isCloseTo(RATE, within(1e-6));
      assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
      assertThat(forecast.get("reason").asText())
          .contains(
              "Left out, as it does not go with those around it: %.0f mg/kg before B-%d of 2026-01-%d (result %s), where others have some 1200."
                  .formatted(mistyped, 10 + at, 11 + at, slip));
    }
  }

  /** Feeds of 800 to 2400 mg/kg, and one that is new for good, are what they are. */
  @Test
  void honestFeedsAreTaken() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    double[] feeds = {1200, 800, 2400, 1000, 9000, 8800, 9100, 8700};
    for (int i = 0; i < feeds.length; i++) {
      titrate(tower, 10 + i, 260 + 20 * i, feeds[i]);
    }

    assertThat(tower.forecast().get("reason").asText()).doesNotContain("Left out");
  }

  @Test
  void aMistypedInletSteersNoWash() {
    Tower wash = Tower.make().washed();
    for (int day = 1; day <= 5; day++) {
      wash.measureInlet(day, day == 3 ? 20 : 1200);
      wash.titrate(day, 300, null, null);
    }
    JsonNode forecast = wash.forecast();

    assertThat(Tower.parameter(forecast, "extraction factor", "1")).isCloseTo(3, within(1e-6));
    assertThat(forecast.get("reason").asText())
        .contains("To bring 1200 mg/kg", "Left out", "20 mg/kg before B-3 of 2026-01-04 (result ");
    // Five behind the wash less the third, and of four the soap before.
    assertThat(forecast.get("evidence")).hasSize(8);
  }

  /** One inlet may stand for many samples behind the tower, and is one all the same. */
  @Test
  void aMistypedInletIsOneHoweverManySamplesItStandsFor() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int batch = 1; batch <= 5; batch++) {
      tower.measureInlet(10 + batch, batch == 5 ? 120 : 1200, 10 + batch);
      for (int i = 0; i < 4; i++) {
        double volume = 260 + 20 * batch + 5 * i;
        tower.titrate(
            10 + batch + 0.1 * i,
            1200 / (1 + Math.exp(RATE * (TAU - volume))),
            "{\"bedVolumes\": %s}".formatted(volume),
            null);
      }
    }
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.get("reason").asText()).containsOnlyOnce("120 mg/kg before B-15");
  }

  /**
   * Three weeks later the names begin anew, and nobody sampled what was before. The older washing
   * of that name counts all the same: (4800 + 3 * 1200) / 4 = 2100 mg/kg come to the wash.
   */
  @Test
  void aBatchNameThatIsUsedAgainIsNotPairedWithTheOldInlet() {
    Tower wash = Tower.make().washed();
    for (int day = 1; day <= 4; day++) {
      wash.measureInlet(day, day == 1 ? 4800 : 1200);
      wash.titrate(day, day == 1 ? 1200 : 300, null, null);
    }
    // Batch B-1 again, on day 22.
    wash.again(22, 60, 1, null);
    JsonNode forecast = wash.forecast();

    assertThat(Tower.parameter(forecast, "extraction factor", "1")).isCloseTo(3, within(1e-6));
    assertThat(forecast.get("reason").asText())
        .contains(
            "Not paired with what was before: B-1 of 2026-01-23 (its inlet is of 2026-01-02).")
        .contains("To bring 2100 mg/kg");
  }

  /** Of the same name: each counts with the inlet that was sampled before it. */
  @Test
  void theLatestInletUpToTheOutletCounts() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double day = 10 + 2 * i;
      tower.measureInlet(day, 1000, 7);
      tower.measureInlet(day + 1, 1400, 7);
      double volume = 260 + 20 * i;
      tower.again(
          day,
          1000 / (1 + Math.exp(RATE * (TAU - volume))),
          7,
          "{\"bedVolumes\": %s}".formatted(volume));
    }
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "k", "1/bed volumes")).isCloseTo(RATE, within(1e-6));
    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.get("reason").asText()).doesNotContain("aired");
  }

  @Test
  void timesThatWereTypedRoughlyAreTakenAndSaid() {
    Tower wash = Tower.make().washed();
    for (int day = 1; day <= 4; day++) {
      wash.measureInlet(day + (day == 2 ? 0.9 : day == 3 ? 1.1 : 0), 1200, day);
      wash.titrate(day, 300, null, null);
    }

    assertThat(wash.forecast().get("reason").asText())
        .contains(
            "Not paired with what was before: B-3 of 2026-01-04 (its inlet is of 2026-01-05).",
            "Paired though the inlet was sampled after the outlet, within a day: B-2 of 2026-01-03 (its inlet is of 2026-01-04).");
  }

  private static JsonNode titrate(Tower tower, double day, double volume, double inlet) {
    return tower.titrate(
        day,
        1200 / (1 + Math.exp(RATE * (TAU - volume))),
        "{\"bedVolumes\": %s}".formatted(volume),
        inlet);
  }
}
