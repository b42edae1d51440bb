package org.sapotrace.titrant;

import static io.restassured.RestAssured.given;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.http.ContentType;
import io.restassured.response.Response;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class LotTest {

  private static final String HYDROCHLORIC =
      "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}";
  private static final String STRONGER =
      "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.02}";

  @Test
  void isKeptAsItWasDeclared() {
    TestLot lot =
        TestLot.with(
            """
            {"reagent": "sulfuric-acid", "nominalNormality": 0.02, "preparedOn": "2026-01-05",
             "openedOn": "2026-01-05", "expiresOn": "2026-07-05"}
            """);
    JsonNode kept = json(200, get(lot.path));

    assertThat(kept.get("lot").asText()).isEqualTo(lot.slug);
    assertThat(kept.get("reagent").asText()).isEqualTo("sulfuric-acid");
    assertThat(kept.get("nominalNormality").asDouble()).isEqualTo(0.02);
    assertThat(kept.get("preparedOn").asText()).isEqualTo("2026-01-05");
    assertThat(kept.get("openedOn").asText()).isEqualTo("2026-01-05");
    assertThat(kept.get("expiresOn").asText()).isEqualTo("2026-07-05");
  }

  @Test
  void isListedInTheOrderOfTheSlugs() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    TestLot next = TestLot.of("hydrochloric-acid");
    List<String> slugs =
        json(200, get("/titrants?limit=1000")).get("items").findValuesAsText("lot");
    JsonNode first = json(200, get("/titrants?limit=1"));

    assertThat(slugs).contains(lot.slug, next.slug).isSorted();
    assertThat(first.get("items")).hasSize(1);
    assertThat(
            json(200, get("/titrants?limit=1&cursor=" + first.get("next").asText()))
                .at("/items/0/lot")
                .asText())
        .isEqualTo(slugs.get(1));
  }

  @Test
  void isReplacedOnlyAsTheVersionThatTheRequestNames() {
    TestLot lot = TestLot.with(HYDROCHLORIC);
    String tag = get(lot.path).header("ETag");

    assertThat(put(lot.path, HYDROCHLORIC).header("ETag")).isEqualTo(tag);
    json(200, putIfMatch(lot.path, STRONGER, tag));
    json(412, putIfMatch(lot.path, HYDROCHLORIC, tag));
    assertThat(get(lot.path).header("ETag")).isNotEqualTo(tag);
    json(404, get("/titrants/never-there"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "-0.01", "0.00009", "5.1", "1e300"})
  void refusesAnAbsurdNormality(String normality) {
    JsonNode problem = json(422, put("/titrants/absurd", HYDROCHLORIC.replace("0.01", normality)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/nominalNormality");
    json(404, get("/titrants/absurd"));
  }

  @ParameterizedTest
  @CsvSource({
    "preparedOn, 2026-02-01, openedOn, 2026-01-31",
    "preparedOn, 2026-02-01, expiresOn, 2026-01-31",
    "openedOn, 2026-02-01, expiresOn, 2026-01-31"
  })
  void refusesDatesOutOfOrder(String earlier, String day, String later, String dayBefore) {
    JsonNode problem =
        json(
            422,
            put(
                "/titrants/out-of-order",
                HYDROCHLORIC.replace(
                    "}",
                    ", \"%s\": \"%s\", \"%s\": \"%s\"}"
                        .formatted(earlier, day, later, dayBefore))));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/" + later);
    json(404, get("/titrants/out-of-order"));
  }

  @Test
  void takesOtherWordsUntilItIsUsed() {
    TestLot lot = TestLot.with(HYDROCHLORIC);
    json(200, put(lot.path, STRONGER));
    JsonNode chart = json(200, get(lot.path + "/strength/charts/individuals.json"));

    assertThat(json(200, get(lot.path)).get("nominalNormality").asDouble()).isEqualTo(0.02);
    assertThat(chart.get("line").isNull()).isTrue();
    assertThat(chart.get("stream").asText()).isEqualTo(lot.slug);
  }

  @Test
  void keepsReagentAndNormalityOnceItIsStandardised() {
    TestLot lot = TestLot.with(HYDROCHLORIC);
    lot.standardised(0.01, "2026-01-05T08:00:00Z");

    json(409, put(lot.path, STRONGER));
    json(409, put(lot.path, HYDROCHLORIC.replace("hydrochloric", "sulfuric")));
    json(200, put(lot.path, HYDROCHLORIC.replace("}", ", \"expiresOn\": \"2026-12-31\"}")));
  }

  @Test
  void keepsReagentAndNormalityOnceItIsTitratedWith() {
    TestLot lot = TestLot.with(HYDROCHLORIC);
    json(
        201,
        post(
            TestStream.soap().path + "/titrations",
            """
            {"batch": "K-0142", "sampledAt": "2026-01-06T08:00:00Z", "titrant": {"lot": "%s"},
             "replicates": [{"titrantMl": 1, "sampleG": 100}]}
            """
                .formatted(lot.slug)));

    json(409, put(lot.path, STRONGER));
  }

  /** However many create it at once, one of them does. */
  @Test
  void isCreatedOnce() throws Exception {
    Callable<Response> create = () -> put("/titrants/created-once", HYDROCHLORIC);
    ExecutorService clients = Executors.newFixedThreadPool(4);
    try {
      List<Integer> statuses =
          clients.invokeAll(Stream.generate(() -> create).limit(8).toList()).stream()
              .map(LotTest::status)
              .toList();
      assertThat(statuses).containsOnlyOnce(201).containsOnly(200, 201);
    } finally {
      clients.shutdown();
    }
  }

  private static int status(Future<Response> answer) {
    try {
      return answer.get().statusCode();
    } catch (InterruptedException | ExecutionException failed) {
      throw new AssertionError(failed);
    }
  }

  private static Response putIfMatch(String path, String body, String tag) {
    return given()
        .contentType(ContentType.JSON)
        .header("If-Match", tag)
        .body(body)
        .put("/api/v1" + path);
  }
}
