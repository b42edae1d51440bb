package org.sapotrace.bench;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Replicates compared by what the replicates before them have shown. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class OwnRepeatabilityTest {

  // 10 g at 0.01 mol/L: 304.45 mg/kg a mL of titrant (computed: 0.01 * 304.45 * 1000 / 10).
  private static final double PER_ML = 304.45;
  private static final Instant START = Instant.parse("2026-01-05T06:00:00Z");

  private TestStream stream;

  @BeforeEach
  void addStream() {
    stream = TestStream.soap();
  }

  /**
   * Computed: pairs that differ by d scatter by d / sqrt 2, and f(2) = 2.7718 (ISO 5725-6). By the
   * budget of 0.048 mL a difference of 0.3 mL would be too much.
   */
  @Test
  void comparesByTheStreamFromTenSetsOn() {
    for (int i = 0; i < 10; i++) {
      assertThat(comparedBy(record(i, 1.0, 1.2)).get("source").asText()).isEqualTo("budget");
    }
    JsonNode result = record(10, 1.0, 1.3).get("result");

    assertThat(comparedBy(result).get("source").asText()).isEqualTo("stream");
    assertThat(comparedBy(result).get("pairs").asInt()).isEqualTo(10);
    assertThat(comparedBy(result).get("standardDeviation").asDouble())
        .isCloseTo(0.2 / Math.sqrt(2) * PER_ML, within(1e-9));
    assertThat(result.at("/agreement/criticalRange").asDouble())
        .isCloseTo(2.771808 * 0.2 / Math.sqrt(2) * PER_ML, within(1e-3));
    assertThat(result.at("/agreement/accepted").asBoolean()).isTrue();
    assertThat(result.at("/agreement/branch").asText()).isEqualTo("mean of 2");
  }

  /** Computed: each pair differs by a tenth of its mean, so s_r is 0.1 / sqrt 2 of the level. */
  @Test
  void takesItInProportionToTheLevelWhereItGrowsWithIt() {
    for (int i = 0; i < 10; i++) {
      double level = 1 + i * 0.5;
      record(i, 0.95 * level, 1.05 * level);
    }

    assertThat(comparedBy(record(10, 8.0, 8.0)).get("standardDeviation").asDouble())
        .isCloseTo(0.1 / Math.sqrt(2) * 8 * PER_ML, within(1e-6));
  }

  /** Computed: two readings of a 0.1 mL scale, 0.1 / sqrt 6 mL. */
  @Test
  void takesNoLessThanTheScaleCanBeRead() {
    for (int i = 0; i < 10; i++) {
      record(i, 1.0, 1.0);
    }
    JsonNode recorded = record(10, 1.0, 1.1);

    assertThat(comparedBy(recorded).get("source").asText()).isEqualTo("reading");
    assertThat(comparedBy(recorded).get("pairs").asInt()).isEqualTo(10);
    assertThat(comparedBy(recorded).get("standardDeviation").asDouble())
        .isCloseTo(0.1 / Math.sqrt(6) * PER_ML, within(1e-6));
    assertThat(recorded.at("/result/agreement/accepted").asBoolean()).isTrue();
  }

  @Test
  void leavesASlipOutAndSaysSo() {
    record(0, 1.0, 6.0);
    for (int i = 1; i < 11; i++) {
      record(i, 1.0, 1.2);
    }
    JsonNode recorded = record(11, 1.0, 1.2);

    assertThat(comparedBy(recorded).get("pairs").asInt()).isEqualTo(10);
    assertThat(comparedBy(recorded).get("standardDeviation").asDouble())
        .isCloseTo(0.2 / Math.sqrt(2) * PER_ML, within(1e-9));
    assertThat(recorded.get("cautions").toString())
        .contains("Of the stream's latest 11 sets of replicates, 1 stands out");
  }

  @Test
  void countsNoSingleTitrationsNoneWithdrawnNoneSampledLaterAndNotItself() {
    List<String> ids = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      ids.add(record(i, 1.0, 1.2).get("id").asText());
      record(i, 1.0);
    }
    assertThat(source(record(20, 1.0, 1.2))).isEqualTo("stream");
    assertThat(source(record(8, 1.0, 1.2))).isEqualTo("budget");
    correct(ids.get(0), "\"withdrawn\": true");
    assertThat(source(record(21, 1.0, 1.2))).isEqualTo("stream");

    // There are ten sets up to this time without the late one, and its own is one of them.
    JsonNode moved =
        correct(ids.get(9), "\"titration\": " + titration(START.plus(Duration.ofHours(10)), 1, 1));
    assertThat(source(moved)).isEqualTo("budget");
  }

  @Test
  void comparesByTheLatestRevision() {
    List<String> ids = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      ids.add(record(i, 1.0, 1.2).get("id").asText());
    }
    correct(ids.get(0), "\"titration\": " + titration(START, 1.0, 1.4));

    // Computed: nine differences of 0.2 mL and one of 0.4 mL.
    assertThat(comparedBy(record(10, 1.0, 1.2)).get("standardDeviation").asDouble())
        .isCloseTo(Math.sqrt((9 * 0.04 + 0.16) / 20) * PER_ML, within(1e-9));
  }

  @Test
  void comparesAlikeWhetherRecordedOneByOneOrImported() {
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i < 15; i++) {
      double[] pair = {1.0, 1.1 + 0.02 * i};
      rows.append(titration(time(i), pair).replace("\n", " ")).append('\n');
      record(i, pair);
    }
    TestStream imported = TestStream.soap();
    // One is there before, and lies in the midst of those imported.
    json(201, post(imported.path + "/titrations", titration(time(7), 1.0, 1.1 + 0.02 * 7)));
    String others = rows.toString().replaceFirst("(?m)^.*%s.*\n".formatted(time(7)), "");
    given()
        .contentType("application/x-ndjson")
        .body(others.getBytes(UTF_8))
        .post("/api/v1" + imported.path + "/imports")
        .then()
        .statusCode(200);

    List<JsonNode> oneByOne = agreements(stream);
    List<JsonNode> together = agreements(imported);
    together.set(7, oneByOne.get(7));
    assertThat(together).isEqualTo(oneByOne);
    assertThat(oneByOne.get(14).at("/repeatability/pairs").asInt()).isEqualTo(14);
  }

  private static List<JsonNode> agreements(TestStream of) {
    List<JsonNode> all = new ArrayList<>();
    json(200, get(of.path + "/results"))
        .get("items")
        .forEach(item -> all.add(item.at("/result/agreement")));
    return all;
  }

  private static JsonNode correct(String id, String change) {
    return json(
        201,
        post("/results/" + id + "/corrections", "{\"reason\": \"slip\", %s}".formatted(change)));
  }

  private static String source(JsonNode recorded) {
    return comparedBy(recorded).get("source").asText();
  }

  /** Of an answer or of its figure. */
  private static JsonNode comparedBy(JsonNode answer) {
    JsonNode figure = answer.has("result") ? answer.get("result") : answer;
    return figure.at("/agreement/repeatability");
  }

  private JsonNode record(int hour, double... titrantMl) {
    return json(201, post(stream.path + "/titrations", titration(time(hour), titrantMl)));
  }

  private static Instant time(int hour) {
    return START.plus(Duration.ofHours(hour));
  }

  private static String titration(Instant sampledAt, double... titrantMl) {
    return """
        {"batch": "K-0142", "sampledAt": "%s", "titrant": {"normality": 0.01}, "replicates": [%s]}
        """
        .formatted(
            sampledAt,
            Arrays.stream(titrantMl)
                .mapToObj("{\"titrantMl\": %s, \"sampleG\": 10}"::formatted)
                .collect(Collectors.joining(", ")));
  }
}
