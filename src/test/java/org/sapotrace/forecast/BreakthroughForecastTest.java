package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;

/**
 * Towers whose curve is known, C/C_0 = 1/(1 + exp(k (tau - V))): what is recorded behind them is
 * that curve, so that k, tau and the throughput at the limit are found again.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class BreakthroughForecastTest {

  private static final double INLET = 1200;
  private static final double LIMIT = 66.21357111787734;
  private static final double RATE = 0.02;
  private static final double TAU = 550;

  /** Where the curve reaches the limit: tau - ln(C_0/L - 1)/k. */
  private static final double REACHED = TAU - Math.log(INLET / LIMIT - 1) / RATE;

  @ParameterizedTest
  @CsvSource({"bedVolumes, bed volumes, g/L", "litres, L, g"})
  void findsTheCurveAndWhatIsLeftOfIt(String field, String unit, String uptake) {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(10 + i, soap(volume), "{\"%s\": %s}".formatted(field, volume), INLET);
    }
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("kind").asText()).isEqualTo("breakthrough");
    assertThat(forecast.get("status").asText()).isEqualTo("forecast");
    assertThat(Tower.parameter(forecast, "k", "1/" + unit)).isCloseTo(RATE, within(1e-6));
    assertThat(Tower.parameter(forecast, "tau", unit)).isCloseTo(TAU, within(1e-3));
    // The fuel has 0.88 kg/L where the line states no density.
    assertThat(Tower.parameter(forecast, "capacity", uptake))
        .isCloseTo(1.2 * 0.88 * TAU, within(1e-2));
    assertThat(Tower.parameter(forecast, "throughput since new", unit)).isEqualTo(380);
    assertThat(Tower.parameter(forecast, "age since new", "d")).isEqualTo(16);
    assertThat(Tower.parameter(forecast, "throughput a day", unit + "/d")).isEqualTo(20);
    JsonNode left = forecast.get("remaining");
    assertThat(left.get("quantity").asText()).isEqualTo("throughput");
    assertThat(left.get("unit").asText()).isEqualTo(unit);
    assertThat(left.get("limit").asDouble()).isEqualTo(LIMIT);
    assertThat(left.get("value").asDouble()).isCloseTo(REACHED - 380, within(1e-3));
    assertThat(forecast.get("evidence")).hasSize(7);
    assertThat(forecast.get("missing").isNull()).isTrue();
    assertThat(forecast.get("reason").asText())
        .contains("since it was new on 2026-01-01", "does not clear a tower: glycerin");
  }

  @Test
  void takesTheSoapBeforeTheTowerFromTheSameBatch() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double inlet = i % 2 == 0 ? 1000 : 1400;
      tower.measureInlet(10 + i, inlet);
      double volume = 260 + 20 * i;
      tower.titrate(
          10 + i, inlet * fraction(volume), "{\"bedVolumes\": %s}".formatted(volume), null);
    }
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "k", "1/bed volumes")).isCloseTo(RATE, within(1e-6));
    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.get("evidence")).hasSize(14);
  }

  @Test
  void saysThatTheSoapBeforeTheTowerIsMissing() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(10 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), null);
    }
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("insufficient");
    assertThat(forecast.get("remaining").isNull()).isTrue();
    assertThat(forecast.get("missing").asText()).contains("inletMgPerKg", "inlet of the stream");
    assertThat(forecast.get("reason").asText()).contains("glycerin");
  }

  @Test
  void saysThatThroughputIsMissing() {
    Tower tower = Tower.make();
    tower.titrate(1, 20, null, INLET);
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("insufficient");
    assertThat(forecast.get("missing").asText()).contains("throughput", "media-change");
  }

  @Test
  void saysHowManyResultsAboveDetectionAreMissing() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 2; i++) {
      tower.titrate(10 + i, 20 + 5 * i, "{\"bedVolumes\": %s}".formatted(300 + i), INLET);
    }
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("insufficient");
    assertThat(forecast.get("missing").asText()).endsWith("still wanted: 1.");
  }

  /** Its bed has taken what is typed, and only its age in days is not known. */
  @Test
  void foreseesATowerWithoutAnEventAndMissesTheEvent() {
    Tower tower = Tower.make();
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(10 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), INLET);
    }
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.get("missing").asText()).contains("media-change");
    assertThat(forecast.get("parameters").findValuesAsText("name")).doesNotContain("age since new");
  }

  @Test
  void beginsAnewWhereTheBedIsNew() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 360 + 20 * i;
      tower.titrate(10 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), INLET);
    }
    tower.event("media-change", 17);
    assertThat(tower.forecast().get("reason").asText())
        .startsWith("No result since the bed was new on 2026-01-18");
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(18 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), INLET);
    }
    JsonNode forecast = tower.forecast();

    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(REACHED - 380, within(1e-3));
    assertThat(forecast.get("evidence")).hasSize(7);
  }

  /** A flush clears film and glycerin, and restores no exchange sites: the curve goes on. */
  @Test
  void tellsTheAgeSinceTheFlushBesideTheAgeSinceNew() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      if (i == 4) {
        tower.beside("flush", "flush-methanol", "null").titrate(13, 900, null, null);
        tower.event("maintenance", 13.5);
      }
      tower.titrate(10 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), INLET);
    }
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(Tower.parameter(forecast, "throughput since new", "bed volumes")).isEqualTo(380);
    assertThat(Tower.parameter(forecast, "throughput since flush", "bed volumes")).isEqualTo(80);
    assertThat(Tower.parameter(forecast, "age since flush", "d")).isEqualTo(3);
    assertThat(forecast.get("reason").asText())
        .contains("flushed on 2026-01-14", "restores no exchange sites");
  }

  /** Nozzles that were cleaned are no flush. */
  @Test
  void takesNoMaintenanceForAFlush() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(10 + i, soap(volume), "{\"bedVolumes\": %s}".formatted(volume), INLET);
    }
    tower.event("maintenance", 13.5);
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("reason").asText()).doesNotContain("flushed");
    assertThat(forecast.get("parameters").findValuesAsText("name"))
        .contains("age since new")
        .doesNotContain("age since flush");
  }

  /** What the lead lets through rises, so that its mean would promise the lag too much. */
  @Test
  void looksAtTheLatestSoapBeforeATowerBehindAnother() {
    Tower lead = Tower.make();
    Tower lag = lead.behind();
    lag.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double inlet = 100 + 150 * i;
      double volume = 260 + 20 * i;
      lag.titrate(
          10 + i, inlet * fraction(volume), "{\"bedVolumes\": %s}".formatted(volume), inlet);
    }
    JsonNode forecast = lag.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    double latest = (700 + 850 + 1000) / 3.0;
    assertThat(forecast.at("/remaining/value").asDouble())
        .isCloseTo(TAU - Math.log(latest / LIMIT - 1) / RATE - 380, within(1e-3));
    assertThat(forecast.get("reason").asText()).contains("behind another");
  }

  @Test
  void hasNoForecastWithoutALimit() {
    Tower tower = Tower.make().beside("unlimited", "after-dry-wash", "{\"upper\": 0}");
    tower.titrate(1, 20, "{\"bedVolumes\": 20}", INLET);

    assertThat(tower.forecast().get("missing").asText()).contains("specification.upper");
  }

  @Test
  void refusesStagesThatNoWashHas() {
    Tower tower = Tower.make();

    for (String stages : new String[] {"0", "101", "1.5", "many"}) {
      json(400, get(tower.path + "/forecast?stages=" + stages));
    }
    json(400, get(tower.path + "/forecast?scheme=up"));
    json(404, get(tower.path + "x/forecast"));
  }

  private static double soap(double volume) {
    return INLET * fraction(volume);
  }

  private static double fraction(double volume) {
    return 1 / (1 + Math.exp(RATE * (TAU - volume)));
  }
}
