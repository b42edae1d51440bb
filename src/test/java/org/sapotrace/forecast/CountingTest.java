package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;

/** Towers behind which some throughputs were typed in litres, and others in bed volumes. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class CountingTest {

  private static final double TAU = 550;
  private static final double RATE = 0.02;
  private static final double REACHED = TAU - Math.log(1200 / 66.21357111787734 - 1) / RATE;
  private static final double BED = 25;

  private Tower tower;

  @BeforeEach
  void makeATower() {
    tower = Tower.make();
    tower.event("media-change", 0);
  }

  @Test
  void oneInLitresIsLeftOutAndNamed() {
    String slip = "";
    for (int i = 0; i <= 6; i++) {
      String id = i == 3 ? inLitres(i) : inBedVolumes(i);
      slip = i == 3 ? id : slip;
    }
    JsonNode forecast = tower.forecast();

    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(REACHED - 380, within(1e-3));
    assertThat(forecast.get("evidence")).hasSize(6);
    assertThat(forecast.get("reason").asText())
        .contains(
            "Left out, as it is not known in bed volumes, in which most of the latest titrations are: B-13 of 2026-01-14 (result %s, 8000 L)."
                .formatted(slip))
        .doesNotContain("counts from the sample");
  }

  @Test
  void theLatestInLitresDoesNotSetTheOthersAside() {
    for (int i = 0; i <= 5; i++) {
      inBedVolumes(i);
    }
    inLitres(6);
    JsonNode forecast = tower.forecast();

    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(REACHED - 360, within(1e-3));
    assertThat(forecast.get("reason").asText())
        .contains("9500 L", "What is left counts from the sample of 2026-01-16.");
  }

  @Test
  void oneWithBothTellsTheBedAndLitresAreConverted() {
    inBoth(0);
    inLitres(1);
    for (int i = 2; i <= 5; i++) {
      inBedVolumes(i);
    }
    inLitres(6);
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.at("/remaining/value").asDouble()).isCloseTo(REACHED - 380, within(1e-3));
    assertThat(forecast.get("evidence")).hasSize(7);
    assertThat(forecast.get("reason").asText())
        .contains("Converted to bed volumes by the bed of 25 L", "B-11 of", "B-16 of")
        .doesNotContain("Left out");
  }

  /** 6600 L are 264 bed volumes, less than had gone through before. */
  @Test
  void whatDoesNotFitInConvertedIsLeftOut() {
    inBoth(0);
    for (int i = 1; i <= 4; i++) {
      inBedVolumes(i);
    }
    titrate(5, "{\"litres\": 6600}");
    inBedVolumes(6);
    JsonNode forecast = tower.forecast();

    assertThat(Tower.parameter(forecast, "tau", "bed volumes")).isCloseTo(TAU, within(1e-3));
    assertThat(forecast.get("reason").asText()).contains("Left out", "6600 L");
  }

  @Test
  void aBenchThatChangesOverIsFollowedAfterThree() {
    for (int i = 0; i <= 3; i++) {
      inLitres(i);
    }
    inBedVolumes(4);
    inBedVolumes(5);
    assertThat(tower.forecast().get("reason").asText())
        .contains("not known in L", "(result ", "360 bed volumes");
    inBedVolumes(6);
    JsonNode forecast = tower.forecast();

    assertThat(forecast.get("status").asText()).isEqualTo("insufficient");
    assertThat(forecast.get("reason").asText()).contains("not known in bed volumes", "and 1 more");
  }

  private String inLitres(int i) {
    return titrate(i, "{\"litres\": %s}".formatted(BED * volume(i)));
  }

  private String inBedVolumes(int i) {
    return titrate(i, "{\"bedVolumes\": %s}".formatted(volume(i)));
  }

  private void inBoth(int i) {
    titrate(i, "{\"litres\": %s, \"bedVolumes\": %s}".formatted(BED * volume(i), volume(i)));
  }

  private String titrate(int i, String throughput) {
    double soap = 1200 / (1 + Math.exp(RATE * (TAU - volume(i))));
    return tower.titrate(10 + i, soap, throughput, 1200.0).get("id").asText();
  }

  private static double volume(int i) {
    return 260 + 20 * i;
  }
}
