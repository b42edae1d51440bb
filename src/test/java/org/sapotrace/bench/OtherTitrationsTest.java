package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class OtherTitrationsTest {

  private static final String TWO_END_POINTS =
      "{\"titrantMl\": 2.27, \"freeAlkaliMl\": 0.35, \"sampleG\": 20}";

  /** Computed: 0.35 * 0.01 * 39.997 * 1000 / 20 = 7.00 as sodium hydroxide. */
  @Test
  void ofFreeAlkaliAreRecordedAndCharted() {
    TestStream stream = stream("free-alkali", "mg/kg");
    JsonNode recorded = json(201, post(stream.path + "/titrations", body(TWO_END_POINTS)));

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(7.00, within(0.001));
    assertThat(recorded.at("/result/metalEquivalent").isNull()).isTrue();
    assertThat(recorded.get("cautions").toString()).doesNotContain("No blank");
    assertThat(stream.chart("individuals").at("/points/0/value"))
        .isEqualTo(recorded.at("/result/value"));
    JsonNode again = json(200, get("/results/" + recorded.get("id").asText()));
    assertThat(again.at("/replicates/0/freeAlkaliMl").asDouble()).isEqualTo(0.35);
    assertThat(again.get("result")).isEqualTo(recorded.get("result"));
  }

  @Test
  void ofFreeAlkaliNeedTheFirstEndPointWhichMayBeZero() {
    TestStream stream = stream("free-alkali", "mg/kg");
    JsonNode problem =
        json(422, post(stream.path + "/titrations", body("{\"titrantMl\": 2, \"sampleG\": 20}")));
    JsonNode none =
        json(201, post(stream.path + "/titrations", body(TWO_END_POINTS.replace("0.35", "0"))));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/replicates");
    assertThat(none.at("/result/value").asDouble()).isZero();
    assertThat(none.get("cautions").toString()).contains("up to the first end point");
  }

  @Test
  void ofFreeAlkaliSayThatNoBlankIsTakenOff() {
    JsonNode recorded =
        json(
            201,
            post(
                stream("free-alkali", "mg/kg").path + "/titrations",
                body(TWO_END_POINTS)
                    .replace("\"replicates\"", "\"blankMl\": 0.1, \"replicates\"")));

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(7.00, within(0.001));
    assertThat(recorded.get("cautions").toString()).contains("blank was not taken off");
  }

  /** Computed: (2.27 - 0.35) * 0.01 * 304.45 * 1000 / 20 = 292.3; no blank. */
  @Test
  void ofSoapTakeTwoEndPoints() {
    TestStream stream = TestStream.soap();
    JsonNode recorded = json(201, post(stream.path + "/titrations", body(TWO_END_POINTS)));

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(292.3, within(0.05));
  }

  /** Computed: 2.27 * 0.01 * 56.105 / 20 mg/g, and 28.2 in place of 56.105 in %. */
  @ParameterizedTest
  @CsvSource({"acid-number, mg/g, 0.06368", "free-fatty-acid, %, 0.03201"})
  void ofAcidityAreRecorded(String measurand, String unit, double expected) {
    TestStream stream = stream(measurand, unit);
    JsonNode recorded =
        json(
            201, post(stream.path + "/titrations", body("{\"titrantMl\": 2.27, \"sampleG\": 20}")));
    JsonNode problem = json(422, post(stream.path + "/titrations", body(TWO_END_POINTS)));

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(expected, within(0.00001));
    assertThat(recorded.at("/result/unit").asText()).isEqualTo(unit);
    assertThat(problem.get("detail").asText()).contains("single end point");
  }

  private static TestStream stream(String measurand, String unit) {
    return TestStream.with(
        """
        {"name": "Oil", "samplingPoint": "other", "measurand": "%s", "unit": "%s"}
        """
            .formatted(measurand, unit));
  }

  private static String body(String replicate) {
    return """
        {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": 0.01},
         "replicates": [%s]}
        """
        .formatted(replicate);
  }
}
