package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;

/** Of a line with two towers, which one was flushed. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class TowerFlushTest {

  @Test
  void theTowerThatTheEventNamesWasFlushed() {
    Tower lead = Tower.make();
    Tower lag = lead.behind();
    Tower flush = lead.beside("flush", "flush-methanol", "null");
    flush.event("maintenance", 13, "flush", "lag");
    flush.titrate(13.1, 900, null, null);
    flush.titrate(13.2, 30, null, null);
    titrate(lead);
    titrate(lag);

    JsonNode flushed = lag.forecast();
    assertThat(Tower.parameter(flushed, "age since flush", "d")).isCloseTo(2.8, within(0.001));
    assertThat(flushed.get("reason").asText())
        .contains("flushed on 2026-01-14")
        .doesNotContain("several towers");
    assertThat(lead.forecast().get("reason").asText()).doesNotContain("flush");
  }

  @Test
  void whereNobodySaidWhichThatIsSaidOfBoth() {
    Tower lead = Tower.make();
    Tower lag = lead.behind();
    Tower flush = lead.beside("flush", "flush-methanol", "null");
    flush.event("maintenance", 13);
    flush.titrate(13.1, 900, null, null);
    titrate(lead);
    titrate(lag);

    for (Tower tower : new Tower[] {lead, lag}) {
      JsonNode forecast = tower.forecast();
      assertThat(forecast.get("parameters").findValuesAsText("name"))
          .doesNotContain("age since flush");
      assertThat(forecast.get("reason").asText())
          .contains(
              "The line has several towers, and nobody said which one was flushed on 2026-01-14");
    }
    // Who says so afterwards is heard.
    flush.event("maintenance", 13.05, "flush", "polished");
    assertThat(lead.forecast().get("reason").asText())
        .contains("It was flushed on 2026-01-14")
        .doesNotContain("several towers");
    assertThat(lag.forecast().get("reason").asText()).doesNotContain("flushed");
  }

  private static void titrate(Tower tower) {
    tower.event("media-change", 0);
    for (int i = 0; i <= 6; i++) {
      double volume = 260 + 20 * i;
      tower.titrate(
          10 + i,
          1200 / (1 + Math.exp(0.02 * (550 - volume))),
          "{\"bedVolumes\": %s}".formatted(volume),
          1200.0);
    }
  }
}
