package org.sapotrace.monitoring;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.monitoring.PhaseTest.at;
import static org.sapotrace.monitoring.PhaseTest.begin;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Each phase has trial limits of its own, until somebody adopts limits. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class TrialPhaseTest {

  private TestStream stream;

  @BeforeEach
  void stream() {
    stream = TestStream.other("[\"beyond-limits\"]");
  }

  @Test
  void haveTheirLimitsFromTheirFirstTwentyResults() {
    record(22, 10);
    begin(stream, at(22));
    record(19, 50);
    assertThat(revisions()).isEqualTo(judged(22, "1", 19, "null"));
    JsonNode twentieth = record(1, 50);

    assertThat(twentieth.at("/control/limitsRevision").asInt()).isEqualTo(2);
    assertThat(revisions()).isEqualTo(judged(22, "1", 20, "2"));
    JsonNode limits = json(200, get(stream.path + "/limits/2"));
    assertThat(limits.get("status").asText()).isEqualTo("trial");
    assertThat(limits.get("effectiveFrom").asText()).isEqualTo(at(22).toString());
    assertThat(limits.at("/baseline/from").asText()).isEqualTo(at(22).toString());
    assertThat(stream.liveSignals()).isEmpty();
  }

  @Test
  void haveThemAtOnceWhereEnoughResultsLieBehindAnEventInThePast() {
    record(25, 10);
    record(20, 50);
    assertThat(stream.liveSignals()).isNotEmpty();
    begin(stream, at(25));

    assertThat(revisions()).isEqualTo(judged(25, "1", 20, "2"));
    assertThat(stream.liveSignals()).isEmpty();
  }

  /** What trial limits of another phase said is taken back. */
  @Test
  void areNotJudgedByThoseOfAnother() {
    record(25, 10);
    record(5, 50);
    begin(stream, at(25));

    assertThat(revisions()).isEqualTo(judged(25, "1", 5, "null"));
    JsonNode signals = json(200, get("/signals?line=" + stream.line)).get("items");
    assertThat(signals.at("/0/state").asText()).isEqualTo("lapsed");
    assertThat(signals.at("/0/lapse/reason").asText()).isEqualTo("a new phase began");
  }

  /** Limits from results of both phases tell of neither. */
  @Test
  void haveNoneFromResultsOfTwo() {
    record(10, 10);
    record(15, 50);
    begin(stream, at(10));
    assertThat(revisions()).isEqualTo(judged(10, "null", 15, "null"));
    record(5, 50);

    assertThat(revisions()).isEqualTo(judged(10, "null", 20, "2"));
  }

  /**
   * The first results that the service knew then all lie behind what turned out to be the border.
   */
  @Test
  void keepThoseThatComeFromTheirResultsAlone() {
    record(22, 10);
    begin(stream, at(0));
    stream.recordAt(70, at(-1));

    assertThat(revisions()).isEqualTo(judged(1, "null", 22, "1"));
  }

  @Test
  void haveThemFromLateResultsToo() {
    record(5, 10);
    begin(stream, at(5));
    record(20, 50);
    assertThat(revisions()).isEqualTo(judged(5, "null", 20, "1"));
    for (int i = 0; i < 15; i++) {
      stream.recordAt(10 + i % 3, at(3).plusSeconds(60L * i));
    }

    assertThat(revisions()).isEqualTo(judged(20, "2", 20, "1"));
    assertThat(json(200, get(stream.path + "/limits/2")).get("effectiveFrom").isNull()).isTrue();
  }

  @Test
  void haveNoneOnceLimitsAreAdopted() {
    record(10, 10);
    begin(stream, at(10));
    stream.adopt("{\"baseline\": {\"first\": 10}}");
    record(20, 50);

    assertThat(json(200, get(stream.path + "/limits")).get("items")).hasSize(1);
    assertThat(revisions()).isEqualTo(judged(10, "1", 20, "1"));
  }

  /** Imported together they end as recorded one by one. */
  @Test
  void endTheSameWhenTheirResultsAreImportedTogether() {
    begin(stream, at(25));
    TestStream single = TestStream.other("[\"beyond-limits\"]");
    begin(single, at(25));
    String rows =
        IntStream.range(0, 60)
            .mapToObj(
                i ->
                    "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}\n"
                        .formatted(at(i), (i < 25 ? 10 : 50) + i % 3 + (i == 57 ? 90 : 0)))
            .collect(Collectors.joining());
    given()
        .contentType("application/x-ndjson")
        .body(rows.getBytes(UTF_8))
        .post("/api/v1" + stream.path + "/imports")
        .then()
        .statusCode(200);
    for (int i = 0; i < 60; i++) {
      single.record((i < 25 ? 10 : 50) + i % 3 + (i == 57 ? 90 : 0));
    }

    assertThat(revisions()).isEqualTo(judged(25, "1", 35, "2"));
    assertThat(stream.judgedPoints()).isEqualTo(single.judgedPoints());
    assertThat(stream.liveSignals()).isEqualTo(single.liveSignals()).hasSize(1);
  }

  /** Values around a level; answers the last result. */
  private JsonNode record(int count, double level) {
    JsonNode last = null;
    for (int i = 0; i < count; i++) {
      last = stream.record(level + i % 3);
    }
    return last;
  }

  private List<String> revisions() {
    return stream.chart("individuals").get("points").findValuesAsText("limitsRevision");
  }

  /** So many points by one revision, and so many by another. */
  private static List<String> judged(int count, String revision, int then, String other) {
    return IntStream.range(0, count + then).mapToObj(i -> i < count ? revision : other).toList();
  }
}
