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
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class MeasuredElsewhereTest {

  private static final String RESULT =
      "{\"batch\": \"B-%s\", \"sampledAt\": \"2026-03-0%sT09:00:00Z\", \"values\": [%s]%s}";

  /** JCGM 106: y = 55, u = 6, upper limit 66.2 gives p = 0.969 (computed). */
  @Test
  void isJudgedByItsUncertainty() {
    JsonNode recorded =
        record(TestStream.soap(), 55, ", \"expandedUncertainty\": 12, \"coverageFactor\": 2");

    assertThat(recorded.at("/verdict/probabilityConforming").asDouble())
        .isCloseTo(0.969, within(5e-4));
    assertThat(recorded.at("/verdict/outcome").asText()).isEqualTo("conforming");
    assertThat(recorded.at("/result/standardUncertainty").asDouble()).isEqualTo(6);
  }

  @Test
  void isComparedAsItStandsWithoutAnUncertainty() {
    JsonNode recorded = record(TestStream.soap(), 70, "");

    assertThat(recorded.at("/verdict/probabilityConforming").isNull()).isTrue();
    assertThat(recorded.at("/verdict/outcome").asText()).isEqualTo("nonconforming");
    assertThat(recorded.at("/verdict/advice").asText()).isEqualTo("rewash");
    assertThat(recorded.get("cautions").toString()).contains("No uncertainty");
  }

  @Test
  void hasNoVerdictWhereNothingIsSpecified() {
    JsonNode recorded = record(TestStream.other("[]"), 70, "");

    assertThat(recorded.get("verdict").isNull()).isTrue();
    assertThat(recorded.at("/result/metalEquivalent").isNull()).isTrue();
    assertThat(recorded.get("cautions").toString())
        .contains("No uncertainty was given")
        .doesNotContain("compared");
  }

  @Test
  void isListedInTheOrderOfSampling() {
    TestStream stream = TestStream.soap();
    for (int day : new int[] {3, 1, 2}) {
      stream.recordAt(day, Instant.parse("2026-03-0%dT09:00:00Z".formatted(day)));
    }

    JsonNode first = json(200, get(stream.path + "/results?limit=2"));
    JsonNode rest =
        json(200, get(stream.path + "/results?limit=2&cursor=" + first.get("next").asText()));
    assertThat(values(first)).isEqualTo("1.0 2.0");
    assertThat(values(rest)).isEqualTo("3.0");
    assertThat(rest.at("/items/0/control/position").asInt()).isEqualTo(3);
    assertThat(
            values(
                json(
                    200,
                    get(
                        stream.path
                            + "/results?from=2026-03-02T00:00:00Z&to=2026-03-02T23:00:00Z"))))
        .isEqualTo("2.0");
  }

  @Test
  void importsRowsAndNamesThoseItRefuses() {
    TestStream stream = TestStream.soap();
    String rows =
        RESULT.formatted(2, 2, 30, "")
            + "\n\n"
            + RESULT.formatted(1, 1, 31, ", \"misspelt\": 1")
            + "\nnot json\n{\"batch\": \"B\"}\n"
            + RESULT.formatted(1, 1, 32, "")
            + "\n"
            + "{\"batch\": \"B-9\", \"sampledAt\": \"2026-03-03T09:20:00Z\","
            + " \"titrant\": {\"normality\": 0.01},"
            + " \"replicates\": [{\"titrantMl\": 0.15, \"sampleMl\": 12}]}\n";
    JsonNode answer = imported(stream, rows, false);

    assertThat(answer.get("accepted").asInt()).isEqualTo(2);
    assertThat(answer.get("refused").findValuesAsText("row")).containsExactly("3", "4", "5", "7");
    assertThat(answer.at("/refused/0/problem/errors/0/pointer").asText()).isEqualTo("#/misspelt");
    assertThat(answer.at("/refused/3/problem/errors/0/pointer").asText())
        .isEqualTo("#/replicates/0/sampleC");
    assertThat(values(json(200, get(stream.path + "/results")))).isEqualTo("32.0 30.0");
  }

  /** An export with the newest on top, with trial limits on the way, ends as one by one would. */
  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void importsAnyOrderAsIfInTheOrderOfSampling(boolean atomic) {
    List<String> rows = new ArrayList<>();
    TestStream ordered = TestStream.other("[\"nelson-1984\"]");
    SplittableRandom random = new SplittableRandom(3);
    for (int i = 0; i < 60; i++) {
      double value = Math.round(10 * random.nextGaussian() + i / 3.0);
      String at = "2026-03-01T%02d:%02d:00Z".formatted(i / 6, i % 6 * 10);
      ordered.recordAt(value, Instant.parse(at));
      rows.add(
          0, "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}".formatted(at, value));
    }
    TestStream imported = TestStream.other("[\"nelson-1984\"]");
    assertThat(imported(imported, String.join("\n", rows), atomic).get("accepted").asInt())
        .isEqualTo(60);

    assertThat(imported.judgedPoints()).isEqualTo(ordered.judgedPoints());
    assertThat(imported.liveSignals())
        .isNotEmpty()
        .containsExactlyInAnyOrderElementsOf(ordered.liveSignals());
  }

  @Test
  void refusesARowThatIsNotUtf8() {
    TestStream stream = TestStream.soap();
    byte[] row = RESULT.formatted("x", 1, 30, "").getBytes(UTF_8);
    row[new String(row, UTF_8).indexOf("B-x") + 2] = (byte) 0xFF;
    JsonNode answer =
        json(
            200,
            given()
                .contentType("application/x-ndjson")
                .body(row)
                .post("/api/v1" + stream.path + "/imports"));

    assertThat(answer.get("accepted").asInt()).isZero();
    assertThat(answer.at("/refused/0/problem/status").asInt()).isEqualTo(400);
  }

  /** No acid has a higher acid number than formic acid, 56.105 / 46.025 g/g (computed). */
  @ParameterizedTest
  @CsvSource({
    "soap, mg/kg, 1.1e6, 1000000 to 1000000 mg/kg",
    "free-alkali, mg/kg, -1.1e6, 1000000 to 1000000 mg/kg",
    "acid-number, mg/g, 1221, 1220 to 1220 mg/g",
    "free-fatty-acid, %, 100.1, 100 to 100 %",
    "other, mg/kg, 1.1e6, 1000000 to 1000000 mg/kg"
  })
  void refusesMoreThanTheWholeSample(String measurand, String unit, double value, String most) {
    TestStream stream =
        TestStream.with(
            "{\"name\": \"Oil\", \"samplingPoint\": \"other\", \"measurand\": \"%s\", \"unit\": \"%s\"}"
                .formatted(measurand, unit));
    JsonNode problem = json(422, post(stream.path + "/results", RESULT.formatted(1, 1, value, "")));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/values/0");
    assertThat(problem.get("detail").asText()).contains("is from -" + most);
  }

  @Test
  void importsAllOrNoneWhenAsked() {
    TestStream stream = TestStream.soap();
    String good = RESULT.formatted(1, 1, 30, "");
    String bad = RESULT.formatted(2, 2, 30, "").replace("2026", "2999");

    JsonNode none = imported(stream, good + "\n" + bad, true);
    assertThat(none.get("accepted").asInt()).isZero();
    assertThat(none.at("/refused/0/row").asInt()).isEqualTo(2);
    assertThat(json(200, get(stream.path + "/results")).get("items")).isEmpty();

    JsonNode all = imported(stream, good + "\n" + RESULT.formatted(2, 2, 31, ""), true);
    assertThat(all.get("accepted").asInt()).isEqualTo(2);
    assertThat(values(json(200, get(stream.path + "/results")))).isEqualTo("30.0 31.0");
  }

  private static JsonNode imported(TestStream stream, String rows, boolean atomic) {
    return json(
        200,
        given()
            .contentType("application/x-ndjson")
            .body(rows.getBytes(UTF_8))
            .post("/api/v1" + stream.path + "/imports?atomic=" + atomic));
  }

  private static JsonNode record(TestStream stream, double value, String more) {
    return json(201, post(stream.path + "/results", RESULT.formatted(1, 1, value, more)));
  }

  private static String values(JsonNode page) {
    StringBuilder values = new StringBuilder();
    page.get("items").forEach(item -> values.append(item.at("/result/value")).append(' '));
    return values.toString().strip();
  }
}
