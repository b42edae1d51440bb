package org.sapotrace.bench;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;
import static org.sapotrace.testing.Wash.at;
import static org.sapotrace.testing.Wash.body;
import static org.sapotrace.testing.Wash.correct;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/**
 * Removals of 10 : 1 are ln 10 = 2.302585, of 20 : 1 2.995732, of 5 : 1 1.609438 (from a table).
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalOfBatchesTest {

  @Test
  void comesWhenBothSidesOfABatchExist() {
    Wash wash = Wash.watched();
    JsonNode inlet = wash.record("crude", "K-1", 0, 500);
    wash.record("crude", "K-2", 1, 500);
    assertThat(wash.removals()).isEmpty();
    JsonNode outlet = wash.record("washed", "K-1", 2, 50);

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(2));
    JsonNode removal = wash.removal(1);
    assertThat(removal.get("line").asText()).isEqualTo(wash.line);
    assertThat(removal.get("stream").asText()).isEqualTo("washed-removal");
    assertThat(removal.get("batch").asText()).isEqualTo("K-1");
    assertThat(removal.at("/result/value").asDouble()).isCloseTo(Math.log(10), within(1e-12));
    assertThat(removal.at("/result/unit").asText()).isEqualTo("1");
    assertThat(removal.get("verdict").isNull()).isTrue();
    assertThat(removal.at("/control/position").asInt()).isEqualTo(1);
    assertThat(removal.at("/from/inlet")).isEqualTo(inlet.get("id"));
    assertThat(removal.at("/from/outlet")).isEqualTo(outlet.get("id"));
    assertThat(removal.get("revisions")).hasSize(1);
    assertThat(inlet.get("id")).isNotEqualTo(removal.get("id"));
  }

  @Test
  void standsAtTheTimeOfTheOutletThoughTheInletComesLater() {
    Wash wash = Wash.watched();
    wash.record("washed", "K-1", 1, 50);
    wash.record("washed", "K-2", 2, 50);
    wash.record("crude", "K-2", 3, 500);
    wash.record("crude", "K-1", 4, 1000);

    assertThat(wash.removals()).containsExactly("K-1 2.995732 " + at(1), "K-2 2.302585 " + at(2));
  }

  @Test
  void takesTheLatestResultOfEachSide() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 4, 50);
    wash.record("washed", "K-1", 2, 77);
    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(4));
    JsonNode again = wash.record("washed", "K-1", 5, 25);
    wash.record("crude", "K-1", 1, 250);

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(5));
    JsonNode removal = wash.removal(1);
    assertThat(removal.at("/from/outlet")).isEqualTo(again.get("id"));
    assertThat(removal.get("revisions").findValuesAsText("reason"))
        .containsExactly(
            "null",
            "another result of the batch was recorded in stream washed",
            "another result of the batch was recorded in stream crude");
  }

  /** By hand: 18/600 is 0.03 and 2/50 is 0.04, so 0.05; twice 18 and twice 2 were expanded. */
  @Test
  void combinesTheUncertaintiesOfBothSides() {
    Wash wash = Wash.watched();
    String sure = body("K-1", 0, 600).replace("}", ", \"expandedUncertainty\": 36}");
    json(201, post(wash.path + "crude/results", sure));
    wash.record("washed", "K-1", 1, 50);
    assertThat(wash.removal(1).at("/result/standardUncertainty").isNull()).isTrue();
    assertThat(wash.removal(1).get("cautions").toString()).contains("not known");
    json(
        201,
        post(
            wash.path + "washed/results",
            body("K-1", 2, 50).replace("}", ", \"expandedUncertainty\": 4}")));

    JsonNode figure = wash.removal(1).get("result");
    assertThat(figure.get("standardUncertainty").asDouble()).isCloseTo(0.05, within(1e-12));
    // Normal quantile for 95 %, from a table: 1.959964.
    assertThat(figure.get("expandedUncertainty").asDouble())
        .isCloseTo(0.05 * 1.959964, within(1e-7));
    assertThat(figure.at("/budget/0/source").asText()).isEqualTo("outlet result");
    assertThat(wash.removal(1).get("cautions")).isEmpty();
  }

  @Test
  void followsCorrectionsOfValueAndTime() {
    Wash wash = Wash.watched();
    JsonNode inlet = wash.record("crude", "K-1", 0, 700);
    wash.record("washed", "K-1", 1, 50);
    wash.record("crude", "K-2", 2, 500);
    JsonNode outlet = titrated(wash, "K-2", 3);
    correct(inlet, "\"values\": [500]");
    correct(outlet, "\"titration\": " + titration("K-2", 0));

    // 1 mL of 0.01 mol/L for 60.89 g are 50 mg/kg: 0.01 x 304.45 x 1000 / 60.89.
    assertThat(wash.removals()).containsExactly("K-2 2.302585 " + at(0), "K-1 2.302585 " + at(1));
    JsonNode removal = wash.removal(2);
    assertThat(removal.get("revision").asInt()).isEqualTo(2);
    assertThat(removal.at("/revisions/1/reason").asText())
        .isEqualTo("result of batch K-1 was corrected: misread");
  }

  @Test
  void movesWithAResultToAnotherBatch() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("crude", "K-2", 1, 1000);
    JsonNode outlet = titrated(wash, "K-1", 2);
    String before = wash.removal(1).get("id").asText();
    correct(outlet, "\"titration\": " + titration("K-2", 2));

    assertThat(wash.removals()).containsExactly("K-2 2.995732 " + at(2));
    assertThat(json(200, get("/results/" + before)).get("withdrawn").asBoolean()).isTrue();
  }

  private static JsonNode titrated(Wash wash, String batch, int hour) {
    return json(201, post(wash.path + "washed/titrations", titration(batch, hour)));
  }

  private static String titration(String batch, int hour) {
    return """
        {"batch": "%s", "sampledAt": "%s", "titrant": {"normality": 0.01}, "blankMl": 0,
         "replicates": [{"titrantMl": 1.0, "sampleG": 60.89}]}
        """
        .formatted(batch, at(hour));
  }

  @Test
  void fallsBackOnTheResultBeforeAWithdrawnOne() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    JsonNode wrong = wash.record("washed", "K-1", 2, 5);
    correct(wrong, "\"withdrawn\": true");

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(1));
    assertThat(wash.removal(1).get("revision").asInt()).isEqualTo(3);
  }

  @Test
  void isWithdrawnWithTheOnlyResultOfASideAndComesAnew() {
    Wash wash = Wash.watched();
    JsonNode inlet = wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    String id = wash.removal(1).get("id").asText();
    correct(inlet, "\"withdrawn\": true");

    assertThat(wash.removals()).isEmpty();
    JsonNode gone = json(200, get("/results/" + id));
    assertThat(gone.get("withdrawn").asBoolean()).isTrue();
    assertThat(gone.get("control").isNull()).isTrue();
    assertThat(gone.at("/revisions/1/reason").asText())
        .isEqualTo("result of batch K-1 was corrected: misread");
    wash.record("crude", "K-1", 3, 250);
    assertThat(wash.removals()).containsExactly("K-1 1.609438 " + at(1));
    assertThat(wash.removal(1).get("id").asText()).isNotEqualTo(id);
  }

  @Test
  void isLeftOutForASideAtOrBelowZeroAndThatIsSaid() {
    Wash wash = Wash.watched();
    JsonNode inlet = wash.record("crude", "K-1", 0, 500);
    assertThat(inlet.get("cautions").toString()).doesNotContain("removal");
    JsonNode outlet = wash.record("washed", "K-1", 1, -0.4);

    String said =
        "Batch K-1 has no removal in stream washed-removal: its latest result in stream washed is -0.4 mg/kg, and only a result above 0 has a logarithm.";
    assertThat(outlet.get("cautions").toString()).contains(said);
    assertThat(wash.removals()).isEmpty();
    String crude = inlet.get("id").asText();
    assertThat(json(200, get("/results/" + crude)).get("cautions").toString()).contains(said);
    assertThat(json(200, get(wash.path + "crude/results")).toString()).contains(said);
    correct(outlet, "\"values\": [50]");
    assertThat(json(200, get("/results/" + crude)).get("cautions").toString())
        .doesNotContain("removal");
    assertThat(wash.removals()).hasSize(1);
    JsonNode zero = correct(outlet, "\"values\": [0]");
    assertThat(zero.get("cautions").toString()).contains("no removal", "is 0 mg/kg");
    assertThat(wash.removals()).isEmpty();
  }

  @Test
  void comesOfImportsOnEitherSide() {
    Wash wash = Wash.watched();
    imported(wash, "washed", body("K-1", 2, 50), body("K-2", 4, 50), body("K-2", 3, 99));
    imported(wash, "crude", body("K-2", 1, 1000), body("K-1", 0, 500), body("K-3", 5, 1));

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(2), "K-2 2.995732 " + at(4));
  }

  private static void imported(Wash wash, String stream, String... rows) {
    given()
        .contentType("application/x-ndjson")
        .body(String.join("\n", rows).getBytes(UTF_8))
        .post("/api/v1" + wash.path + stream + "/imports")
        .then()
        .statusCode(200);
  }

  @Test
  void joinsWithTheStepBehind() {
    Wash wash = Wash.watched();
    json(201, wash.watch("polished", "washed"));
    wash.record("crude", "K-1", 0, 500);
    wash.record("polished", "K-1", 2, 5);
    wash.record("washed", "K-1", 1, 50);

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(1));
    assertThat(wash.points("polished-removal").at("/0/value").asDouble())
        .isCloseTo(Math.log(10), within(1e-12));
  }

  @Test
  void isRecordedAndCorrectedByNobodyElse() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    String removals = wash.path + "washed-removal";
    String titration = titration("K-9", 3);

    assertThat(refusal(post(removals + "/results", body("K-9", 3, 2)))).contains("washed");
    assertThat(refusal(post(removals + "/titrations", titration))).contains("follows");
    String corrections = "/results/" + wash.removal(1).get("id").asText() + "/corrections";
    assertThat(refusal(post(corrections, "{\"reason\": \"r\", \"values\": [2]}")))
        .contains(wash.removal(1).at("/from/inlet").asText(), "correct or withdraw those");
    assertThat(refusal(post(corrections, "{\"reason\": \"r\", \"withdrawn\": true}")))
        .contains("follows");
    JsonNode answer =
        json(
            200,
            given()
                .contentType("application/x-ndjson")
                .body(body("K-9", 3, 2).getBytes(UTF_8))
                .post("/api/v1" + removals + "/imports"));
    assertThat(answer.get("accepted").asInt()).isZero();
    assertThat(answer.at("/refused/0/problem/detail").asText()).contains("kept by the service");
    assertThat(wash.removals()).hasSize(1);
  }

  private static String refusal(Response answer) {
    return json(422, answer).get("detail").asText();
  }

  @Test
  void isComparedWithASpecificationWhereThereIsOne() {
    Wash wash = Wash.watched();
    json(
        200,
        put(
            wash.path + "washed-removal",
            """
            {"name": "What the wash takes", "samplingPoint": "after-wash", "measurand": "removal",
             "unit": "1", "specification": {"lower": 2.5, "from": "2026-01-01"}}
            """));
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);

    assertThat(wash.removal(1).at("/verdict/outcome").asText()).isEqualTo("nonconforming");
    assertThat(wash.removal(1).at("/verdict/limit").asDouble()).isEqualTo(2.5);
  }

  @Test
  void saysWhereASideIsHardlyKnown() {
    Wash wash = Wash.watched();
    json(
        201,
        post(
            wash.path + "crude/results",
            body("K-1", 0, 600).replace("}", ", \"expandedUncertainty\": 36}")));
    json(
        201,
        post(
            wash.path + "washed/results",
            body("K-1", 1, 3).replace("}", ", \"expandedUncertainty\": 2}")));

    assertThat(wash.removal(1).get("cautions").toString()).contains("a quarter of itself");
  }

  @Test
  void hasAPrecisionThatNoTitrationTells() {
    Wash wash = Wash.watched();
    wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    JsonNode precision = json(200, get(wash.path + "washed-removal/precision"));

    assertThat(precision.get("unit").asText()).isEqualTo("1");
  }
}
