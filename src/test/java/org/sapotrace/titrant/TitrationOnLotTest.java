package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.RestAssured;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class TitrationOnLotTest {

  private static final String MONDAY = "2026-01-05T08:00:00Z";
  private static final String TUESDAY = "2026-01-06T08:00:00Z";
  private static final String FRIDAY = "2026-01-09T08:00:00Z";

  private static final String READINGS =
      """
      {"batch": "K-0142", "sampledAt": "%s", "titrant": %s, "blankMl": 0.1,
       "replicates": [{"titrantMl": 2.27, "sampleG": 100}]}
      """;

  private TestStream stream;
  private TestLot lot;

  @BeforeEach
  void setUp() {
    stream = TestStream.soap();
    lot = TestLot.of("hydrochloric-acid");
  }

  @Test
  void countsByTheLatestStandardisationBeforeTheSample() {
    JsonNode monday = lot.standardised(0.0101, MONDAY);
    lot.standardised(0.0099, FRIDAY);
    JsonNode recorded = record(TUESDAY);

    assertThat(recorded.at("/titrant/lot").asText()).isEqualTo(lot.slug);
    assertThat(recorded.at("/titrant/normality")).isEqualTo(monday.get("normality"));
    assertThat(recorded.at("/titrant/standardUncertainty"))
        .isEqualTo(monday.get("standardUncertainty"));
    assertThat(recorded.at("/titrant/interpolated").asBoolean()).isFalse();
    assertThat(recorded.get("cautions").toString()).doesNotContain("Lot ", "normality");
    // What a typed normality of that strength and uncertainty comes to.
    JsonNode typed =
        json(
            201,
            post(
                stream.path + "/titrations",
                READINGS.formatted(
                    TUESDAY,
                    "{\"normality\": %s, \"standardUncertainty\": %s}"
                        .formatted(monday.get("normality"), monday.get("standardUncertainty")))));
    assertThat(recorded.get("result")).isEqualTo(typed.get("result"));
    assertThat(typed.get("titrant").isNull()).isTrue();
  }

  @Test
  void isReadAgainWithTheNormalityThatWasUsed() {
    lot.standardised(0.0101, MONDAY);
    JsonNode recorded = record(TUESDAY);
    lot.standardised(0.0102, TUESDAY);
    JsonNode read = json(200, get("/results/" + recorded.get("id").asText()));

    assertThat(read.get("titrant")).isEqualTo(recorded.get("titrant"));
    assertThat(read.get("result")).isEqualTo(recorded.get("result"));
    JsonNode listed = json(200, get(stream.path + "/results")).at("/items/0");
    assertThat(listed.get("titrant")).isEqualTo(recorded.get("titrant"));
  }

  /** The nominal normality c with a rectangle of 5 %: u = 0.05 c / sqrt(3) = 0.000 288 675. */
  @Test
  void countsByTheNominalNormalityBeforeAnyStandardisation() {
    lot.standardised(0.0101, FRIDAY);
    JsonNode recorded = record(TUESDAY);

    assertThat(recorded.at("/titrant/normality").asDouble()).isEqualTo(0.01);
    assertThat(recorded.at("/titrant/standardUncertainty").asDouble())
        .isCloseTo(0.000288675, within(1e-9));
    assertThat(recorded.get("cautions").toString()).contains("was not standardised by then");
  }

  @Test
  void forgetsAStandardisationThatWasWithdrawn() {
    lot.standardised(0.01, MONDAY);
    String id = lot.standardised(0.0105, TUESDAY).get("id").asText();
    json(
        201, post("/results/" + id + "/corrections", "{\"reason\": \"wet\", \"withdrawn\": true}"));

    assertThat(record(FRIDAY).at("/titrant/normality").asDouble()).isCloseTo(0.01, within(1e-9));
  }

  /** 30 days unless it is set otherwise. */
  @ParameterizedTest
  @CsvSource({"2026-02-04T08:00:00Z, false", "2026-02-04T08:00:01Z, true"})
  void saysWhereTheStandardisationIsTooLongAgo(String sampledAt, boolean said) {
    lot.standardised(0.01, MONDAY);

    assertThat(record(sampledAt).get("cautions").toString().contains("standardise it anew"))
        .isEqualTo(said);
  }

  @ParameterizedTest
  @CsvSource({
    "2026-01-02T23:59:59Z, was prepared on 2026-01-03",
    "2026-01-03T00:00:00Z, was opened on 2026-01-04",
    "2026-01-04T00:00:00Z, ''",
    "2026-01-31T23:59:59Z, ''",
    "2026-02-01T00:00:00Z, expired on 2026-01-31"
  })
  void saysWhereTheSampleLiesOutsideTheLifeOfTheLot(String sampledAt, String said) {
    TestLot dated =
        TestLot.with(
            """
            {"reagent": "hydrochloric-acid", "nominalNormality": 0.01, "preparedOn": "2026-01-03",
             "openedOn": "2026-01-04", "expiresOn": "2026-01-31"}
            """);
    dated.standardised(0.01, "2026-01-02T00:00:00Z");
    String cautions =
        json(
                201,
                post(
                    stream.path + "/titrations",
                    READINGS.formatted(sampledAt, "{\"lot\": \"%s\"}".formatted(dated.slug))))
            .get("cautions")
            .toString();

    assertThat(cautions.contains("lot " + dated.slug)).isEqualTo(!said.isEmpty());
    assertThat(cautions).contains(said);
  }

  @ParameterizedTest
  @CsvSource({
    "soap, mg/kg, potassium-hydroxide, acid",
    "free-alkali, mg/kg, sodium-hydroxide, acid",
    "acid-number, mg/g, hydrochloric-acid, alkali",
    "free-fatty-acid, %, sulfuric-acid, alkali"
  })
  void refusesALotThatDoesNotTitrateIt(
      String measurand, String unit, String reagent, String wanted) {
    TestStream other =
        TestStream.with(
            "{\"name\": \"S\", \"samplingPoint\": \"crude\", \"measurand\": \"%s\", \"unit\": \"%s\"}"
                .formatted(measurand, unit));
    String body =
        READINGS.formatted(TUESDAY, "{\"lot\": \"%s\"}".formatted(TestLot.of(reagent).slug));
    JsonNode problem = json(422, post(other.path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/titrant/lot");
    assertThat(problem.get("detail").asText()).contains("titrated with an " + wanted);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{'lot': 'never-there'} | #/titrant/lot",
        "{'lot': 'Never there'} | #/titrant/lot",
        "{'lot': 'a', 'normality': 0.01} | #/titrant",
        "{'lot': 'a', 'standardUncertainty': 0.0001} | #/titrant",
        "{} | #/titrant/normality"
      })
  void refusesATitrantThatIsNone(String titrant, String pointer) {
    String body = READINGS.formatted(TUESDAY, titrant.replace('\'', '"'));
    JsonNode problem = json(422, post(stream.path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  @Test
  void isImportedRowByRow() {
    lot.standardised(0.0101, MONDAY);
    String rows = row(TUESDAY, lot.slug) + row(TUESDAY, "never-there") + row(FRIDAY, lot.slug);
    JsonNode imported =
        json(
            200,
            RestAssured.given()
                .contentType("application/x-ndjson")
                .body(rows.getBytes(StandardCharsets.UTF_8))
                .post("/api/v1" + stream.path + "/imports"));

    assertThat(imported.get("accepted").asInt()).isEqualTo(2);
    assertThat(imported.at("/refused/0/row").asInt()).isEqualTo(2);
    assertThat(imported.at("/refused/0/problem/errors/0/pointer").asText())
        .isEqualTo("#/titrant/lot");
    assertThat(json(200, get(stream.path + "/results")).at("/items/1/titrant/normality").asDouble())
        .isCloseTo(0.0101, within(1e-9));
  }

  private static String row(String sampledAt, String lot) {
    return READINGS.formatted(sampledAt, "{\"lot\": \"%s\"}".formatted(lot)).replace("\n", " ")
        + "\n";
  }

  @Test
  void isCorrectedToAnotherLot() {
    TestLot right = TestLot.of("sulfuric-acid");
    right.standardised(0.0104, MONDAY);
    String id = record(TUESDAY).get("id").asText();
    JsonNode corrected =
        json(
            201,
            post(
                "/results/" + id + "/corrections",
                "{\"reason\": \"wrong bottle noted\", \"titration\": %s}"
                    .formatted(
                        READINGS.formatted(TUESDAY, "{\"lot\": \"%s\"}".formatted(right.slug)))));

    assertThat(corrected.at("/titrant/lot").asText()).isEqualTo(right.slug);
    assertThat(corrected.at("/titrant/normality").asDouble()).isCloseTo(0.0104, within(1e-9));
  }

  /** Without a time the calculation counts by the lot as it is now. */
  @Test
  void isCalculatedWithTheLotAsItWasThen() {
    lot.standardised(0.0101, MONDAY);
    lot.standardised(0.0102, Instant.now().minus(Duration.ofDays(1)).toString());
    JsonNode then = calculate(", \"sampledAt\": \"" + TUESDAY + "\"");
    JsonNode now = calculate("");

    assertThat(then.at("/titrant/normality").asDouble()).isCloseTo(0.0101, within(1e-9));
    assertThat(now.at("/titrant/normality").asDouble()).isCloseTo(0.0102, within(1e-9));
    assertThat(now.get("cautions").toString()).doesNotContain("Lot ");
  }

  private JsonNode calculate(String more) {
    return json(
        200,
        post(
            "/calculations/soap",
            """
            {"alkali": "sodium", "titrant": {"lot": "%s"}, "blankMl": 0.1,
             "replicates": [{"titrantMl": 2.27, "sampleG": 100}]%s}
            """
                .formatted(lot.slug, more)));
  }

  private JsonNode record(String sampledAt) {
    return json(
        201,
        post(
            stream.path + "/titrations",
            READINGS.formatted(sampledAt, "{\"lot\": \"%s\"}".formatted(lot.slug))));
  }
}
