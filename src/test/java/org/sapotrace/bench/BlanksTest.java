package org.sapotrace.bench;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class BlanksTest {

  // 10 g at 0.01 mol/L: 304.45 mg/kg a mL of titrant (computed: 0.01 * 304.45 * 1000 / 10).
  private static final double PER_ML = 304.45;

  // Computed: mean 0.05, s0 = sqrt((1 + 1 + 0 + 4 + 4) * 1e-4 / 4).
  private static final double[] FIVE = {0.04, 0.06, 0.05, 0.07, 0.03};
  private static final double S0 = Math.sqrt(2.5e-4);

  private static final Instant FIRST_BLANK = Instant.parse("2026-03-01T06:00:00Z");
  private static final String SAMPLED_AT = "2026-03-04T09:20:00Z";

  private TestStream soap;

  @BeforeEach
  void defineStreams() {
    soap = TestStream.soap();
    define("blanks", "blank", "other", "mL");
  }

  /** Computed: (0.47 - 0.05) mL; u = s0 / sqrt(5); 3.3 s0 and 10 s0, each at 304.45 mg/kg a mL. */
  @Test
  void areTakenOffByTheirMean() {
    blanks(FIVE);
    JsonNode recorded = titrate(0.47, null);

    assertThat(value(recorded)).isCloseTo(0.42 * PER_ML, within(1e-9));
    assertThat(source(recorded, "scatter of the blanks"))
        .isCloseTo(PER_ML * S0 / Math.sqrt(5), within(1e-6));
    assertThat(recorded.at("/result/detectionLimit").asDouble())
        .isCloseTo(3.3 * S0 * PER_ML, within(1e-6));
    assertThat(recorded.at("/result/quantificationLimit").asDouble())
        .isCloseTo(10 * S0 * PER_ML, within(1e-6));
    assertThat(recorded.get("cautions").toString())
        .contains(
            "No blank was given: the mean of this line's latest 5 blanks, 0.05 mL, was taken off.")
        .doesNotContain("etect");
  }

  /**
   * A decimal point was lost: G = 2.041 of six, above 1.973, ISO 5725-2:1994, table 5 (from
   * memory).
   */
  @Test
  void sayWhichOfThemStandsOut() {
    String standsOut =
        "Of this line's latest 6 blanks that of 5 mL stands out by Grubbs' test beyond 1 %: correct or withdraw it if it was misread.";
    blanks(0.04, 0.06, 0.05, 0.07, 0.03, 5);
    assertThat(titrate(0.97, null).get("cautions").toString()).contains(standsOut);
  }

  /** The limits lie at 15.89 and 48.14 mg/kg, as above. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "0.04 | -0.01 | Below detection: -3.045 mg/kg is under the limit of detection of 15.89 mg/kg, 3.3 times the scatter of the blanks. The signed value is kept.",
        "0.09 | 0.04 | Below detection: 12.18 mg/kg is under the limit of detection of 15.89 mg/kg, 3.3 times the scatter of the blanks. The signed value is kept.",
        "0.16 | 0.11 | Detected, but not quantified: 33.4895 mg/kg is under the limit of quantification of 48.14 mg/kg, 10 times the scatter of the blanks."
      })
  void sayWhatIsDetectedAndWhatIsQuantified(double titrantMl, double netMl, String caution) {
    blanks(FIVE);
    JsonNode recorded = titrate(titrantMl, null);

    assertThat(value(recorded)).isCloseTo(netMl * PER_ML, within(1e-9));
    assertThat(recorded.get("cautions").toString()).contains(caution);
    assertThat(soap.chart("individuals").at("/points/0/value").asDouble())
        .isEqualTo(value(recorded));
  }

  @Test
  void sayOfAResultBelowDetectionThatItIs() {
    blanks(FIVE);

    assertThat(titrate(0.09, null).at("/verdict/reason").asText())
        .startsWith("A result below detection (12.2 ±");
    assertThat(titrate(0.15, null).at("/verdict/reason").asText()).startsWith("A result of ");
  }

  /** Student's t of one degree of freedom has tails that no effective number of them knows. */
  @Test
  void sayThatTwoOfThemAreTooFewForABudget() {
    blanks(0.04, 0.06);

    assertThat(titrate(0.47, null).get("cautions").toString())
        .contains("disagree by more than 5 %")
        .contains("rely on the interval from");
    assertThat(titrate(0.47, 0.05).get("cautions").toString()).doesNotContain("disagree");
  }

  @Test
  void ofLaterOnAndOfOtherPlacesDoNotCount() {
    blanks(0.05, 0.07);
    record("blanks", 0.9, Instant.parse("2026-03-04T09:20:01Z"));
    define("crude", "crude", "other", "mL");
    record("crude", 0.9, FIRST_BLANK);
    define("litres", "blank", "other", "L");
    record("litres", 0.9, FIRST_BLANK);
    TestStream elsewhere = soap;
    defineStreams();
    blanks(0.9, 0.9);
    soap = elsewhere;

    JsonNode recorded = titrate(0.47, null);
    assertThat(value(recorded)).isCloseTo((0.47 - 0.06) * PER_ML, within(1e-9));
    assertThat(recorded.get("cautions").toString()).contains("latest 2 blanks, 0.06 mL");
  }

  @Test
  void countAsTheyWereCorrectedAndNotWhereTheyWereWithdrawn() {
    List<String> ids = blanks(0.05, 0.5, 0.9);
    correct(ids.get(1), "\"values\": [0.07]");
    correct(ids.get(2), "\"withdrawn\": true");

    assertThat(value(titrate(0.47, null))).isCloseTo((0.47 - 0.06) * PER_ML, within(1e-9));
  }

  /** One more, of 0.9 mL, lies before the thirty of 0.06 mL. */
  @Test
  void countAsFarBackAsThirty() {
    blanks(0.9);
    List<Double> thirty = new ArrayList<>(Collections.nCopies(30, 0.06));
    define("more-blanks", "blank", "other", "mL");
    importAll("more-blanks", thirty, FIRST_BLANK.plus(Duration.ofHours(1)));

    JsonNode recorded = titrate(0.47, null);
    assertThat(value(recorded)).isCloseTo(0.41 * PER_ML, within(1e-9));
    assertThat(recorded.get("cautions").toString()).contains("latest 30 blanks");
    // They all read the same, which a pipette of 1 mL may do within 0.01 / sqrt(6) mL.
    assertThat(source(recorded, "scatter of the blanks"))
        .isCloseTo(PER_ML * 0.01 / Math.sqrt(6) / Math.sqrt(30), within(1e-6));
    assertThat(recorded.at("/result/detectionLimit").asDouble())
        .isCloseTo(3.3 * PER_ML * 0.01 / Math.sqrt(6), within(1e-6));
  }

  @Test
  void areNoSeriesWhereThereIsOne() {
    blanks(0.05);
    JsonNode recorded = titrate(0.47, null);

    assertThat(value(recorded)).isCloseTo(0.47 * PER_ML, within(1e-9));
    assertThat(recorded.at("/result/detectionLimit").isNull()).isTrue();
    assertThat(recorded.get("cautions").toString()).contains("No blank was given: 0 mL was taken.");
  }

  /** Five of 0.03 and five of 0.07 mL: s0 = 0.02 sqrt(10 / 9) = 0.02108 mL, above 0.0108 mL. */
  @Test
  void sayHowFarABlankThatWasReadScatters() {
    importAll("blanks", Collections.nCopies(5, 0.03), FIRST_BLANK);
    importAll("blanks", Collections.nCopies(4, 0.07), FIRST_BLANK.plus(Duration.ofHours(9)));
    JsonNode nine = titrate(0.47, 0.02);
    record("blanks", 0.07, FIRST_BLANK.plus(Duration.ofHours(20)));
    JsonNode ten = titrate(0.47, 0.02);

    assertThat(value(nine)).isEqualTo(value(ten)).isCloseTo(0.45 * PER_ML, within(1e-9));
    assertThat(nine.at("/result/detectionLimit").isNull()).isTrue();
    assertThat(nine.at("/result/budget").toString()).contains("blank end point");
    double s0 = 0.02 * Math.sqrt(10.0 / 9);
    assertThat(source(ten, "scatter of the blanks")).isCloseTo(PER_ML * s0, within(1e-6));
    assertThat(ten.at("/result/budget").toString()).doesNotContain("blank end point");
    assertThat(ten.at("/result/detectionLimit").asDouble())
        .isCloseTo(3.3 * s0 * PER_ML, within(1e-6));
    assertThat(ten.at("/result/effectiveDegreesOfFreedom").asDouble()).isGreaterThan(9);
    assertThat(ten.get("cautions").toString())
        .contains("latest 10 blanks scatter by 0.02108 mL, more than one of them can be read to");
  }

  @Test
  void areRefusedWhereTheirMeanIsNoVolume() {
    blanks(-0.1, -0.3);
    JsonNode problem = json(422, post(soap.path + "/titrations", body(0.47, null)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/blankMl");
    assertThat(problem.get("detail").asText()).contains("-0.2 mL on the mean");
    assertThat(value(titrate(0.47, 0.02))).isCloseTo(0.45 * PER_ML, within(1e-9));
  }

  /** Acidity is titrated in another solvent with another titrant. */
  @ParameterizedTest
  @CsvSource({"acid-number, mg/g", "free-fatty-acid, %"})
  void areNotThoseOfAcidity(String measurand, String unit) {
    blanks(FIVE);
    define("oil", "other", measurand, unit);
    JsonNode recorded =
        json(201, post("/lines/" + soap.line + "/streams/oil/titrations", body(0.47, null)));

    assertThat(recorded.at("/result/detectionLimit").isNull()).isTrue();
    assertThat(recorded.get("cautions").toString())
        .contains("No blank was given: 0 mL was taken.")
        .contains("taken as alcoholic and within 4 °C");
  }

  private void define(String stream, String samplingPoint, String measurand, String unit) {
    json(
        201,
        put(
            "/lines/" + soap.line + "/streams/" + stream,
            """
            {"name": "Stream", "samplingPoint": "%s", "measurand": "%s", "unit": "%s"}
            """
                .formatted(samplingPoint, measurand, unit)));
  }

  private List<String> blanks(double... millilitres) {
    return IntStream.range(0, millilitres.length)
        .mapToObj(i -> record("blanks", millilitres[i], FIRST_BLANK.plus(Duration.ofMinutes(i))))
        .toList();
  }

  private String record(String stream, double value, Instant sampledAt) {
    String path = "/lines/" + soap.line + "/streams/" + stream + "/results";
    return json(201, post(path, result(value, sampledAt))).get("id").asText();
  }

  private void importAll(String stream, List<Double> values, Instant from) {
    StringBuilder rows = new StringBuilder();
    for (int i = 0; i < values.size(); i++) {
      rows.append(result(values.get(i), from.plus(Duration.ofMinutes(i)))).append('\n');
    }
    JsonNode imported =
        json(
            200,
            given()
                .contentType("application/x-ndjson")
                .body(rows.toString().getBytes(UTF_8))
                .post("/api/v1/lines/" + soap.line + "/streams/" + stream + "/imports"));
    assertThat(imported.get("accepted").asInt()).isEqualTo(values.size());
  }

  private static String result(double value, Instant sampledAt) {
    return "{\"batch\": \"blank\", \"sampledAt\": \"%s\", \"values\": [%s]}"
        .formatted(sampledAt, value);
  }

  private static void correct(String id, String change) {
    json(
        201,
        post("/results/" + id + "/corrections", "{\"reason\": \"slip\", %s}".formatted(change)));
  }

  private JsonNode titrate(double titrantMl, Double blankMl) {
    return json(201, post(soap.path + "/titrations", body(titrantMl, blankMl)));
  }

  private static String body(double titrantMl, Double blankMl) {
    return """
        {"batch": "K-0142", "sampledAt": "%s", "titrant": {"normality": 0.01}, "blankMl": %s,
         "glassware": "measuring-pipette-1ml",
         "replicates": [{"titrantMl": %s, "sampleG": 10}]}
        """
        .formatted(SAMPLED_AT, blankMl, titrantMl);
  }

  private static double value(JsonNode recorded) {
    return recorded.at("/result/value").asDouble();
  }

  private static double source(JsonNode recorded, String source) {
    for (JsonNode part : recorded.at("/result/budget")) {
      if (part.get("source").asText().equals(source)) {
        return part.get("standardUncertainty").asDouble();
      }
    }
    throw new AssertionError("no " + source + " in " + recorded);
  }
}
