package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class StandardisationTest {

  private static final String MONDAY = "2026-01-05T08:00:00Z";
  private static final String TUESDAY = "2026-01-06T08:00:00Z";
  private static final String FRIDAY = "2026-01-09T08:00:00Z";

  private static final String READINGS =
      """
      {"standard": "sodium-carbonate", "purity": 0.9995, "performedAt": "2026-01-05T08:00:00Z",
       "blankMl": 0.0, "glassware": "burette-25ml",
       "replicates": [{"standardG": 0.0532, "titrantMl": 10.04},
                      {"solution": {"standardG": 5.3, "volumeMl": 1000}, "aliquotMl": 10,
                       "titrantMl": 10}]}
      """;

  /** The contract's example of a calculation: the same readings come to the same. */
  @Test
  void comesToWhatItsCalculationDoes() {
    TestLot lot = TestLot.with("{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.1}");
    Response answer = lot.standardise(READINGS);
    JsonNode recorded = json(201, answer);
    JsonNode calculated = json(200, post("/calculations/standardisation", READINGS));

    assertThat(answer.header("Location"))
        .endsWith("/api/v1/results/" + recorded.get("id").asText());
    assertThat(recorded.get("lot").asText()).isEqualTo(lot.slug);
    assertThat(recorded.get("performedAt").asText()).isEqualTo(MONDAY);
    calculated.forEachEntry(
        (field, value) -> assertThat(recorded.get(field)).as(field).isEqualTo(value));
  }

  @Test
  void isReadAgainInTheWordsInWhichItWasSent() throws Exception {
    TestLot lot = TestLot.with("{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.1}");
    JsonNode recorded = json(201, lot.standardise(READINGS));
    JsonNode read = json(200, get("/results/" + recorded.get("id").asText()));
    JsonNode sent = new ObjectMapper().readTree(READINGS);

    assertThat(read.get("line").isNull()).isTrue();
    assertThat(read.get("stream").asText()).isEqualTo(lot.slug);
    assertThat(read.at("/result/value")).isEqualTo(recorded.get("normality"));
    assertThat(read.at("/result/unit").asText()).isEqualTo("mol/L");
    for (String field : List.of("standard", "purity", "performedAt", "blankMl", "glassware")) {
      assertThat(read.get(field)).as(field).isEqualTo(sent.get(field));
    }
    assertThat(read.at("/replicates/0").toString())
        .isEqualTo("{\"standardG\":0.0532,\"titrantMl\":10.04}");
    assertThat(read.at("/replicates/1/solution/volumeMl").asDouble()).isEqualTo(1000);
    assertThat(read.at("/replicates/1/aliquotMl").asDouble()).isEqualTo(10);
  }

  /** Computed: against the one before in time, whatever the order of recording. */
  @Test
  void isComparedWithTheOneBeforeInTime() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    assertThat(lot.standardised(0.01, MONDAY).get("changeSinceLast").isNull()).isTrue();
    JsonNode friday = lot.standardised(0.01002, FRIDAY);
    JsonNode tuesday = lot.standardised(0.00998, TUESDAY);

    assertThat(friday.get("changeSinceLast").asDouble()).isCloseTo(0.00002, within(1e-9));
    assertThat(tuesday.get("changeSinceLast").asDouble()).isCloseTo(-0.00002, within(1e-9));
    JsonNode listed = json(200, get(lot.path + "/standardisations")).get("items");
    assertThat(listed.findValuesAsText("performedAt")).containsExactly(MONDAY, TUESDAY, FRIDAY);
    assertThat(listed.get(2).get("changeSinceLast").asDouble()).isCloseTo(0.00004, within(1e-9));
  }

  @Test
  void isListedInParts() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    for (int day = 0; day < 5; day++) {
      lot.standardised(0.01 + day * 1e-5, Instant.parse(MONDAY).plus(Duration.ofDays(day)) + "");
    }
    List<Double> changes = new ArrayList<>();
    String next = "";
    do {
      JsonNode part = json(200, get(lot.path + "/standardisations?limit=2" + next));
      part.get("items").forEach(item -> changes.add(item.get("changeSinceLast").asDouble()));
      next = part.get("next").isNull() ? "" : "&cursor=" + part.get("next").asText();
    } while (!next.isEmpty());

    assertThat(changes).hasSize(5);
    assertThat(changes.subList(1, 5)).allMatch(change -> Math.abs(change - 1e-5) < 1e-9);
  }

  /** Common practice: 5 % off nominal is the most for use, 1 % since the last asks for a look. */
  @ParameterizedTest
  @CsvSource({
    "0.01049, false",
    "0.01051, true",
    "0.00951, false",
    "0.00949, true",
    "0.0199, true",
    "0.00501, true"
  })
  void warnsOfAStrengthFarFromTheNominalOne(double normality, boolean warned) {
    String cautions =
        TestLot.of("hydrochloric-acid").standardised(normality, MONDAY).get("cautions").toString();

    assertThat(cautions.contains("off the nominal 0.01 mol/L")).isEqualTo(warned);
  }

  @ParameterizedTest
  @CsvSource({"0.010099, ''", "0.010101, risen", "0.009901, ''", "0.009899, fallen"})
  void warnsOfAMoveSinceTheLast(double normality, String moved) {
    TestLot lot = TestLot.of("hydrochloric-acid");
    lot.standardised(0.01, MONDAY);
    String cautions = lot.standardised(normality, TUESDAY).get("cautions").toString();

    assertThat(cautions.contains("asks for a look")).isEqualTo(!moved.isEmpty());
    assertThat(cautions).contains(moved);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0.02001, 0.00499, 0.1, 0.001})
  void refusesAFactorOfTwoAndChangesNothing(double normality) {
    TestLot lot = TestLot.of("hydrochloric-acid");
    JsonNode problem = json(422, lot.standardise(TestLot.comingTo(normality, MONDAY)));

    assertThat(problem.get("detail").asText()).contains("check the mass of standard");
    assertThat(problem.get("detail").asText()).doesNotContain("Sulfuric");
    assertThat(json(200, get(lot.path + "/standardisations")).get("items")).isEmpty();
    assertThat(json(200, get(lot.path + "/strength/charts/individuals.json")).get("points"))
        .isEmpty();
  }

  /** 0.01 mol of H2SO4 gives 0.02 mol of H+. */
  @Test
  void saysWhereMolarityWasTakenForNormality() {
    JsonNode problem =
        json(422, TestLot.of("sulfuric-acid").standardise(TestLot.comingTo(0.0201, MONDAY)));

    assertThat(problem.get("detail").asText()).contains("twice its molarity");
  }

  @Test
  void refusesAStandardThatDoesNotReactWithTheLot() {
    JsonNode problem =
        json(422, TestLot.of("potassium-hydroxide").standardise(TestLot.comingTo(0.01, MONDAY)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/standard");
    assertThat(problem.get("detail").asText()).contains("use potassium-hydrogen-phthalate");
  }

  @ParameterizedTest
  @CsvSource({"1899-12-31T00:00:00Z, check the year", "2099-01-01T00:00:00Z, and here it is"})
  void refusesATimeThatCannotBe(String performedAt, String why) {
    JsonNode problem =
        json(422, TestLot.of("hydrochloric-acid").standardise(TestLot.comingTo(0.01, performedAt)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/performedAt");
    assertThat(problem.get("detail").asText()).contains(why);
  }

  @Test
  void refusesALotThatIsNotThere() {
    json(404, post("/titrants/never-there/standardisations", TestLot.comingTo(0.01, MONDAY)));
    json(404, get("/titrants/never-there/standardisations"));
  }

  @Test
  void countsNoMoreOnceItIsWithdrawn() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    lot.standardised(0.01, MONDAY);
    String id = lot.standardised(0.0101, TUESDAY).get("id").asText();
    JsonNode withdrawn =
        json(
            201,
            post("/results/" + id + "/corrections", "{\"reason\": \"wet\", \"withdrawn\": true}"));

    assertThat(withdrawn.get("withdrawn").asBoolean()).isTrue();
    JsonNode friday = lot.standardised(0.01001, FRIDAY);
    assertThat(friday.get("changeSinceLast").asDouble()).isCloseTo(0.00001, within(1e-9));
    JsonNode listed = json(200, get(lot.path + "/standardisations")).get("items");
    assertThat(listed.get(1).get("withdrawn").asBoolean()).isTrue();
    assertThat(listed.get(1).get("changeSinceLast").isNull()).isTrue();
    assertThat(json(200, get(lot.path + "/strength/charts/individuals.json")).get("points"))
        .hasSize(2);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"values\": [0.01]",
        "\"titration\": {\"batch\": \"K\", \"sampledAt\": \"2026-01-05T08:00:00Z\", \"titrant\":"
            + " {\"normality\": 0.01}, \"replicates\": [{\"titrantMl\": 1, \"sampleG\": 10}]}"
      })
  void isNotCorrectedOtherwise(String change) {
    String id = TestLot.of("hydrochloric-acid").standardised(0.01, MONDAY).get("id").asText();
    JsonNode problem =
        json(422, post("/results/" + id + "/corrections", "{\"reason\": \"r\", " + change + "}"));

    assertThat(problem.get("detail").asText()).contains("withdraw it, and record it anew");
  }

  /** By limits from the first twenty, which are the trial limits of any stream. */
  @Test
  void raisesSignalsUnderNoLine() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    Instant day = Instant.parse(MONDAY);
    for (int i = 0; i < 20; i++) {
      lot.standardised(i % 2 == 0 ? 0.01001 : 0.00999, day.plus(Duration.ofDays(i)).toString());
    }
    String id = lot.standardised(0.0103, "2026-02-05T08:00:00Z").get("id").asText();
    JsonNode read = json(200, get("/results/" + id));
    String signal = read.at("/control/signals/0/id").asText();
    JsonNode raised = json(200, get("/signals/" + signal));

    assertThat(raised.get("line").isNull()).isTrue();
    assertThat(raised.get("stream").asText()).isEqualTo(lot.slug);
    assertThat(identifiers("/signals?limit=1000")).contains(signal);
  }

  /** Of all pages of a list. */
  private static List<String> identifiers(String list) {
    List<String> found = new ArrayList<>();
    for (JsonNode page = json(200, get(list)); ; ) {
      found.addAll(page.get("items").findValuesAsText("id"));
      if (page.get("next").isNull()) {
        return found;
      }
      page = json(200, get(list + "&cursor=" + page.get("next").asText()));
    }
  }
}
