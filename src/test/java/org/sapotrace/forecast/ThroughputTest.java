package org.sapotrace.forecast;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;

/** What goes through a tower only grows, until its bed is new. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ThroughputTest {

  private static final String BED_VOLUMES = "{\"bedVolumes\": %s}";

  @Test
  void isAnsweredAsItWasTyped() {
    Tower tower = Tower.make();
    JsonNode recorded = tower.titrate(1, 20, "{\"litres\": 5400, \"bedVolumes\": 216}", 1150.0);
    JsonNode again = json(200, get("/results/" + recorded.get("id").asText()));

    assertThat(again.at("/throughput/litres").asDouble()).isEqualTo(5400);
    assertThat(again.at("/throughput/bedVolumes").asDouble()).isEqualTo(216);
    assertThat(again.get("inletMgPerKg").asDouble()).isEqualTo(1150);
    assertThat(recorded.has("throughput")).isFalse();
    JsonNode without = tower.titrate(2, 20, null, null);
    assertThat(json(200, get("/results/" + without.get("id").asText())).has("throughput"))
        .isFalse();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{} | 1150 | 422 | #/throughput",
        "{\"litres\": null} | 1150 | 422 | #/throughput",
        "{\"litres\": -1} | 1150 | 422 | #/throughput/litres",
        "{\"bedVolumes\": 1e10} | 1150 | 422 | #/throughput/bedVolumes",
        "{\"bedVolumes\": 1} | 0 | 422 | #/inletMgPerKg",
        "{\"bedVolumes\": 1} | -5 | 422 | #/inletMgPerKg",
        "{\"bedVolumes\": 1} | 1000001 | 422 | #/inletMgPerKg",
        "{\"bedvolumes\": 1} | 1150 | 400 | #/throughput/bedvolumes",
        "{\"bedVolumes\": 1e999} | 1150 | 422 | #/throughput/bedVolumes",
        "\"216\" | 1150 | 422 | #/throughput"
      })
  void isRefusedWhereItCannotBe(String throughput, String inlet, int status, String pointer) {
    Tower tower = Tower.make();
    String body =
        Tower.titration(1, 20, throughput, null)
            .replace("\"inletMgPerKg\": null", "\"inletMgPerKg\": " + inlet);
    JsonNode problem = json(status, post(tower.path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  @Test
  void isRefusedWhereItGoesBack() {
    Tower tower = Tower.make();
    tower.event("media-change", 0);
    tower.titrate(1, 20, BED_VOLUMES.formatted(200), null);
    JsonNode problem = json(422, tower.tryToTitrate(2, BED_VOLUMES.formatted(199)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/throughput/bedVolumes");
    assertThat(problem.get("detail").asText())
        .isEqualTo(
            "What went through only grows: 199 bed volumes here, and 200 at the sample of 2026-01-02T06:00:00Z before it. Check both, or record the event media-change with which the bed was new first.");
    json(201, tower.tryToTitrate(2, BED_VOLUMES.formatted(200)));
  }

  @Test
  void isRefusedWhereAnEntryComesLateAndSaysMoreThanTheOneBehindIt() {
    Tower tower = Tower.make();
    tower.titrate(1, 20, BED_VOLUMES.formatted(100), null);
    tower.titrate(3, 20, BED_VOLUMES.formatted(300), null);

    json(422, tower.tryToTitrate(2, BED_VOLUMES.formatted(301)));
    json(422, tower.tryToTitrate(2, BED_VOLUMES.formatted(99)));
    json(201, tower.tryToTitrate(2, BED_VOLUMES.formatted(200)));
    json(422, tower.tryToTitrate(2.5, BED_VOLUMES.formatted(150)));
  }

  @Test
  void isComparedInEachUnitWithWhatIsGivenInThatUnit() {
    Tower tower = Tower.make();
    tower.titrate(1, 20, "{\"litres\": 5000}", null);
    tower.titrate(2, 20, BED_VOLUMES.formatted(100), null);

    json(422, tower.tryToTitrate(3, "{\"litres\": 4999, \"bedVolumes\": 101}"));
    json(422, tower.tryToTitrate(3, "{\"litres\": 5001, \"bedVolumes\": 99}"));
    json(201, tower.tryToTitrate(3, "{\"litres\": 5001, \"bedVolumes\": 101}"));
  }

  @Test
  void beginsAnewWithTheBedAndWithTheSampleOfThatMoment() {
    Tower tower = Tower.make();
    tower.titrate(1, 20, BED_VOLUMES.formatted(200), null);
    tower.event("maintenance", 2);
    json(422, tower.tryToTitrate(2, BED_VOLUMES.formatted(0)));
    tower.event("media-change", 2);

    json(201, tower.tryToTitrate(2, BED_VOLUMES.formatted(0)));
    json(422, tower.tryToTitrate(1.5, BED_VOLUMES.formatted(0)));
  }

  @Test
  void beginsAnewWithAFlush() {
    Tower flush = Tower.make().beside("flush", "flush-methanol", "{\"upper\": 50}");
    flush.titrate(1, 20, "{\"litres\": 200}", null);
    json(422, flush.tryToTitrate(2, "{\"litres\": 10}"));
    flush.event("maintenance", 1.5);

    json(201, flush.tryToTitrate(2, "{\"litres\": 10}"));
  }

  @Test
  void isCorrectedAndWithdrawnWithItsResult() {
    Tower tower = Tower.make();
    JsonNode slip = tower.titrate(1, 20, BED_VOLUMES.formatted(900), null);
    json(422, tower.tryToTitrate(2, BED_VOLUMES.formatted(100)));
    String corrections = "/results/%s/corrections".formatted(slip.get("id").asText());
    String corrected = "{\"reason\": \"a slip\", \"titration\": %s}";
    json(
        201,
        post(
            corrections,
            corrected.formatted(Tower.titration(1, 20, BED_VOLUMES.formatted(90), null))));
    json(201, tower.tryToTitrate(2, BED_VOLUMES.formatted(100)));
    JsonNode problem =
        json(
            422,
            post(
                corrections,
                corrected.formatted(Tower.titration(1, 20, BED_VOLUMES.formatted(101), null))));
    assertThat(problem.at("/errors/0/pointer").asText())
        .isEqualTo("#/titration/throughput/bedVolumes");
    json(201, post(corrections, "{\"reason\": \"mixed up\", \"withdrawn\": true}"));
    json(201, tower.tryToTitrate(1, BED_VOLUMES.formatted(10)));
  }

  @ParameterizedTest
  @CsvSource({"false, 3, 1", "true, 0, 1"})
  void isRefusedRowByRowInAnImport(boolean atomic, int accepted, int refused) {
    Tower tower = Tower.make();
    StringBuilder rows = new StringBuilder();
    for (int volume : new int[] {300, 100, 500, 250}) {
      // The last one was sampled after the third, and goes back.
      int day = volume == 250 ? 6 : volume / 100;
      rows.append(Tower.titration(day, 20, BED_VOLUMES.formatted(volume), null)).append('\n');
    }
    JsonNode answer =
        json(
            200,
            given()
                .contentType("application/x-ndjson")
                .body(rows.toString().getBytes(UTF_8))
                .post("/api/v1" + tower.path + "/imports?atomic=" + atomic));

    assertThat(answer.get("accepted").asInt()).isEqualTo(accepted);
    assertThat(answer.get("refused")).hasSize(refused);
    assertThat(answer.at("/refused/0/row").asInt()).isEqualTo(4);
    assertThat(answer.at("/refused/0/problem/errors/0/pointer").asText())
        .isEqualTo("#/throughput/bedVolumes");
  }
}
