package org.sapotrace.productline;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class LinesAndStreamsTest {

  private static final String SODIUM = "{\"name\": \"Quay line\", \"alkali\": \"sodium\"}";
  private static final String WASHED =
      """
      {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap", "unit": "mg/kg"%s}
      """;

  @Test
  void aLineIsCreatedThenReplaced() {
    Response created = put("/lines/mooring", SODIUM);
    assertThat(created.statusCode()).isEqualTo(201);
    assertThat(created.header("Location")).endsWith("/api/v1/lines/mooring");
    assertThat(created.header("ETag")).isEqualTo("\"1\"");

    Response replaced = put("/lines/mooring", "{\"name\": \"Mooring\", \"alkali\": \"sodium\"}");
    assertThat(replaced.statusCode()).isEqualTo(200);
    assertThat(replaced.header("ETag")).isEqualTo("\"2\"");
    assertThat(json(200, get("/lines/mooring")).get("name").asText()).isEqualTo("Mooring");
  }

  @Test
  void puttingTheSameAgainChangesNothing() {
    put("/lines/pier", SODIUM);
    assertThat(put("/lines/pier", SODIUM).header("ETag")).isEqualTo("\"1\"");
  }

  @Test
  void anOutdatedVersionIsNotReplaced() {
    put("/lines/dock", SODIUM);
    put("/lines/dock", "{\"name\": \"Dock\", \"alkali\": \"sodium\"}");

    Response refused =
        given()
            .contentType(ContentType.JSON)
            .header("If-Match", "\"1\"")
            .body(SODIUM)
            .put("/api/v1/lines/dock");
    json(412, refused);
    assertThat(json(200, get("/lines/dock")).get("name").asText()).isEqualTo("Dock");
  }

  /** Whoever is second replaces, or is told so: no creation is lost. */
  @Test
  void isCreatedOnceHoweverManyCreateItAtOnce() throws Exception {
    ExecutorService clients = Executors.newFixedThreadPool(8);
    try {
      for (int round = 0; round < 10; round++) {
        String path = "/lines/crowd-" + round;
        List<Future<Integer>> answers = new ArrayList<>();
        for (int client = 0; client < 8; client++) {
          String body = "{\"name\": \"From %d\", \"alkali\": \"sodium\"}".formatted(client);
          answers.add(
              clients.submit(
                  () ->
                      given()
                          .contentType(ContentType.JSON)
                          .header("If-None-Match", "*")
                          .body(body)
                          .put("/api/v1" + path)
                          .statusCode()));
        }
        List<Integer> statuses = new ArrayList<>();
        for (Future<Integer> answer : answers) {
          statuses.add(answer.get());
        }
        assertThat(statuses).containsOnlyOnce(201).containsOnly(201, 412);
        assertThat(get(path).header("ETag")).isEqualTo("\"1\"");
      }
    } finally {
      clients.shutdownNow();
    }
  }

  @Test
  void aKnownVersionIsNotSentAgain() {
    put("/lines/slip", SODIUM);
    given().header("If-None-Match", "\"1\"").get("/api/v1/lines/slip").then().statusCode(304);
  }

  @Test
  void aLineWithStreamsKeepsItsAlkali() {
    TestStream stream = TestStream.soap();
    JsonNode problem =
        json(409, put("/lines/" + stream.line, "{\"name\": \"L\", \"alkali\": \"potassium\"}"));
    assertThat(problem.get("detail").asText()).contains("sodium").contains("new line");
  }

  /** 5 mg/kg of the metal: 66.21 mg/kg sodium oleate, 40.99 mg/kg potassium oleate (computed). */
  @ParameterizedTest
  @CsvSource({
    "sodium, after-wash, 66.21",
    "sodium, after-dry-wash, 66.21",
    "potassium, storage, 40.99"
  })
  void washedSoapHasTheMetalLimitByDefault(String alkali, String point, double upper) {
    String line = "/lines/default-" + alkali + "-" + point;
    put(line, "{\"name\": \"L\", \"alkali\": \"%s\"}".formatted(alkali));
    JsonNode stream =
        json(201, put(line + "/streams/s", WASHED.formatted("").replace("after-wash", point)));

    assertThat(stream.at("/specification/upper").asDouble()).isCloseTo(upper, within(0.005));
    assertThat(stream.at("/specification/from").isNull()).isTrue();
  }

  @ParameterizedTest
  @CsvSource({"crude", "flush-methanol", "check-standard", "blank", "other"})
  void otherStreamsHaveNoLimitUnlessGiven(String point) {
    String line = "/lines/no-default-" + point;
    put(line, SODIUM);
    JsonNode stream =
        json(201, put(line + "/streams/s", WASHED.formatted("").replace("after-wash", point)));

    assertThat(stream.get("specification").isNull()).isTrue();
  }

  @Test
  void specificationsStayOnRecordWithTheirDates() {
    String path = "/lines/dated/streams/s";
    put("/lines/dated", SODIUM);
    json(201, put(path, WASHED.formatted(", \"specification\": {\"upper\": 80}")));
    json(
        200,
        put(
            path,
            WASHED.formatted(", \"specification\": {\"upper\": 50, \"from\": \"2026-03-01\"}")));
    JsonNode stream =
        json(200, put(path, WASHED.formatted(", \"specification\": {\"upper\": 40}")));

    assertThat(stream.get("specifications").findValuesAsText("upper"))
        .containsExactly("80.0", "50.0", "40.0");
    assertThat(stream.at("/specifications/2/from").asText())
        .isEqualTo(LocalDate.now(ZoneOffset.UTC).toString());
    assertThat(verdictLimit(path, "2026-02-28T23:59:59Z")).isEqualTo(80);
    assertThat(verdictLimit(path, "2026-03-01T00:00:00Z")).isEqualTo(50);
  }

  @Test
  void aStreamKeepsItsMeaning() {
    TestStream stream = TestStream.soap();
    json(409, put(stream.path, WASHED.formatted("").replace("after-wash", "storage")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"chart\": {\"rules\": [\"beyond-limits\", \"seven-rising\"]} | #/chart/rules/1",
        "\"chart\": {\"dispersion\": \"range\"} | #/chart/dispersion",
        "\"chart\": {\"subgroupSize\": 101} | #/chart/subgroupSize",
        "\"chart\": {\"dispersion\": \"spread\"} | #/chart/dispersion",
        "\"specification\": {\"lower\": 5, \"upper\": 4} | #/specification",
        "\"specification\": {\"lower\": 70} | #/specification",
        "\"notes\": 1 |"
      })
  void whatCannotBeTrueIsRefused(String field, String pointer) {
    TestStream stream = TestStream.soap();
    Response refused = put(stream.path, WASHED.formatted(", " + field));

    assertThat(refused.statusCode()).isIn(400, 422);
    if (pointer != null) {
      assertThat(json(422, refused).at("/errors/0/pointer").asText()).isEqualTo(pointer);
    }
  }

  @Test
  void soapIsRecordedInItsOwnUnit() {
    TestStream stream = TestStream.soap();
    JsonNode problem = json(422, put(stream.path, WASHED.formatted("").replace("mg/kg", "%")));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/unit");
  }

  @Test
  void rulesAreNamedSinglyOrAsASet() {
    TestStream stream = TestStream.other("\"nelson-1984\"");
    assertThat(json(200, get(stream.path)).at("/chart/rules")).hasSize(8);
    stream = TestStream.other("[\"western-electric-1956\", \"six-trending\"]");
    assertThat(json(200, get(stream.path)).at("/chart/rules")).hasSize(5);
  }

  @Test
  void listsGoOnFromTheCursor() {
    put("/lines/many", SODIUM);
    for (String slug : new String[] {"c", "a", "b"}) {
      json(201, put("/lines/many/streams/" + slug, WASHED.formatted("")));
    }
    JsonNode first = json(200, get("/lines/many/streams?limit=2"));
    JsonNode second =
        json(200, get("/lines/many/streams?limit=2&cursor=" + first.get("next").asText()));

    assertThat(first.get("items").findValuesAsText("stream")).containsExactly("a", "b");
    assertThat(second.get("items").findValuesAsText("stream")).containsExactly("c");
    assertThat(second.get("next").isNull()).isTrue();
  }

  private static double verdictLimit(String path, String sampledAt) {
    JsonNode recorded =
        json(
            201,
            post(
                path + "/results",
                "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [45]}"
                    .formatted(sampledAt)));
    return recorded.at("/verdict/limit").asDouble();
  }
}
