package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class TitrationTest {

  private static final String TITRATION =
      """
      {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": 0.01},
       "replicates": [%s]}
      """;

  /** Common practice, no source: factor 304 a mL at 10 g, 0.01 mol/L and no blank. */
  @ParameterizedTest
  @CsvSource({"0.15, 45.6", "0.10, 30.4"})
  void agreesWithTheTradesFactor(double titrantMl, double soap) {
    JsonNode recorded =
        record(TestStream.soap(), "{\"titrantMl\": %s, \"sampleG\": 10}".formatted(titrantMl));
    double factorRounding = soap * 0.45 / 304;

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(soap, within(factorRounding));
    assertThat(recorded.at("/result/unit").asText()).isEqualTo("mg/kg");
  }

  /** 12 mL at 20 °C and 880 kg/m³ at 15 °C is 10.52 g (computed), 5 % more than 10 g. */
  @Test
  void differsByTheDensityWhereTheTradeTakes12MlFor10G() {
    TestStream stream = TestStream.soap();
    double weighed = soap(record(stream, "{\"titrantMl\": 0.15, \"sampleG\": 10}"));
    double measured =
        soap(record(stream, "{\"titrantMl\": 0.15, \"sampleMl\": 12, \"sampleC\": 20}"));

    assertThat(weighed / measured).isCloseTo(1.0517, within(1e-4));
  }

  @Test
  void isAnsweredWithItsBudgetLargestFirst() {
    JsonNode result =
        record(
                TestStream.soap(),
                "{\"titrantMl\": 0.47, \"sampleG\": 40.03}, {\"titrantMl\": 0.49, \"sampleG\": 40.1}")
            .get("result");
    double[] parts =
        StreamSupport.stream(result.get("budget").spliterator(), false)
            .mapToDouble(part -> part.get("standardUncertainty").asDouble())
            .toArray();

    assertThat(parts).isSortedAccordingTo((a, b) -> Double.compare(b, a));
    double combined = 0;
    for (double part : parts) {
      combined += part * part;
    }
    assertThat(result.get("standardUncertainty").asDouble())
        .isCloseTo(Math.sqrt(combined), within(1e-9));
    assertThat(result.get("replicates")).hasSize(2);
  }

  @Test
  void isReadAgainWithItsReadings() {
    TestStream stream = TestStream.soap();
    JsonNode recorded = record(stream, "{\"initialMl\": 1.02, \"finalMl\": 1.17, \"sampleG\": 10}");
    JsonNode again = json(200, get("/results/" + recorded.get("id").asText()));

    assertThat(again.at("/replicates/0/finalMl").asDouble()).isEqualTo(1.17);
    assertThat(again.at("/replicates/0").has("titrantMl")).isFalse();
    assertThat(again.at("/titrant/normality").asDouble()).isEqualTo(0.01);
    assertThat(again.get("revisions")).hasSize(1);
    assertThat(again.at("/revisions/0/value")).isEqualTo(recorded.at("/result/value"));
    for (String field : new String[] {"id", "batch", "result", "verdict", "control", "cautions"}) {
      assertThat(again.get(field)).isEqualTo(recorded.get(field));
    }
  }

  @Test
  void namesEveryDefaultThatItUsed() {
    JsonNode cautions =
        record(TestStream.soap(), "{\"titrantMl\": 0.15, \"sampleMl\": 12, \"sampleC\": 20}")
            .get("cautions");

    assertThat(cautions.toString())
        .contains("No blank")
        .contains("normality")
        .contains("25 mL class A burette")
        .contains("880 ± 10 kg/m3")
        .contains("measuring cylinder");
  }

  @Test
  void keepsANegativeNetVolumeWithItsSign() {
    JsonNode recorded =
        json(
            201,
            post(
                TestStream.soap().path + "/titrations",
                TITRATION
                    .formatted("{\"titrantMl\": 0.02, \"sampleG\": 10}")
                    .replace("\"replicates\"", "\"blankMl\": 0.05, \"replicates\"")));

    assertThat(soap(recorded)).isCloseTo(-0.03 * 304.450, within(1e-9));
    assertThat(recorded.get("cautions").toString()).contains("Below detection");
    assertThat(recorded.at("/verdict/outcome").asText()).isEqualTo("conforming");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"titrantMl\": 0.15, \"sampleMl\": 12} | #/replicates/0/sampleC | temperature",
        "{\"titrantMl\": 0.15} | #/replicates/0 | sampleG or as sampleMl",
        "{\"titrantMl\": 0.15, \"sampleG\": 10, \"sampleMl\": 12} | #/replicates/0 | either",
        "{\"sampleG\": 10} | #/replicates/0 | titrantMl",
        "{\"initialMl\": 2, \"finalMl\": 1, \"sampleG\": 10} | #/replicates/0/finalMl | below",
        "{\"titrantMl\": -1, \"sampleG\": 10} | #/replicates/0/titrantMl | volume",
        "{\"titrantMl\": 1, \"sampleG\": 0} | #/replicates/0/sampleG | from 0.05 to 1000 g",
        "{\"titrantMl\": 1e999, \"sampleG\": 10} | #/replicates/0/titrantMl | number",
        "{\"titrantMl\": 1, \"freeAlkaliMl\": 1.1, \"sampleG\": 10} | #/replicates/0/freeAlkaliMl | beyond",
        "{\"initialMl\": 1, \"finalMl\": 2, \"freeAlkaliMl\": 1.1, \"sampleG\": 10} | #/replicates/0/freeAlkaliMl | counted from the start",
        "{\"titrantMl\": 1, \"sampleG\": 0.04} | #/replicates/0/sampleG | check the unit",
        "{\"titrantMl\": 1, \"sampleG\": 1001} | #/replicates/0/sampleG | check the unit",
        "{\"titrantMl\": 1, \"sampleMl\": 0.05, \"sampleC\": 20} | #/replicates/0/sampleMl | check the unit",
        "{\"titrantMl\": 1, \"sampleMl\": 1150, \"sampleC\": 20} | #/replicates/0/sampleMl | check the unit"
      })
  void pointsAtWhatCannotBeTrue(String replicate, String pointer, String word) {
    TestStream stream = TestStream.soap();
    JsonNode problem = json(422, post(stream.path + "/titrations", TITRATION.formatted(replicate)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(problem.get("detail").asText()).contains(word);
    assertThat(json(200, get(stream.path + "/results")).get("items")).isEmpty();
  }

  @Test
  void doesNotReadMoreThanTheNamedGlasswareHolds() {
    String body =
        TITRATION
            .formatted("{\"titrantMl\": 1.4, \"sampleG\": 10}")
            .replace("\"replicates\"", "\"glassware\": \"measuring-pipette-1ml\", \"replicates\"");
    JsonNode problem = json(422, post(TestStream.soap().path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/replicates/0/titrantMl");
  }

  @ParameterizedTest
  @CsvSource({"1e300", "5", "0.0101"})
  void isNotComputedWithAnUncertaintyAboveTheNormality(String uncertainty) {
    String body =
        TITRATION
            .formatted("{\"titrantMl\": 1.4, \"sampleG\": 10}")
            .replace("0.01}", "0.01, \"standardUncertainty\": " + uncertainty + "}");
    JsonNode problem = json(422, post(TestStream.soap().path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/titrant/standardUncertainty");
  }

  @Test
  void takesNoBlankThatTheNamedGlasswareDoesNotHold() {
    String body =
        TITRATION
            .formatted("{\"titrantMl\": 0.4, \"sampleG\": 10}")
            .replace(
                "\"replicates\"",
                "\"blankMl\": 1.2, \"glassware\": \"measuring-pipette-1ml\", \"replicates\"");
    JsonNode problem = json(422, post(TestStream.soap().path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/blankMl");
  }

  /** -1.5 mL at 10 g and 0.01 mol/L comes to -456.7 mg/kg (computed). */
  @Test
  void releasesNothingThatIsFarBelowZero() {
    JsonNode recorded =
        json(
            201,
            post(
                TestStream.soap().path + "/titrations",
                TITRATION
                    .formatted("{\"titrantMl\": 0.5, \"sampleG\": 10}")
                    .replace("\"replicates\"", "\"blankMl\": 2, \"replicates\"")));

    assertThat(soap(recorded)).isCloseTo(-456.7, within(0.05));
    assertThat(recorded.at("/verdict/outcome").asText()).isEqualTo("inconclusive");
    assertThat(recorded.at("/verdict/advice").asText()).isEqualTo("retest");
    assertThat(recorded.at("/verdict/replicatesToDecide").isNull()).isTrue();
  }

  @Test
  void isNotDatedAhead() {
    String body =
        TITRATION
            .formatted("{\"titrantMl\": 1.4, \"sampleG\": 10}")
            .replace("2026-03-04T09:20:00Z", Instant.now().plus(6, ChronoUnit.MINUTES).toString());
    JsonNode problem = json(422, post(TestStream.soap().path + "/titrations", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/sampledAt");
  }

  @Test
  void isNotTakenByAStreamOfSomethingElse() {
    JsonNode problem =
        json(
            422,
            post(
                TestStream.other("[]").path + "/titrations",
                TITRATION.formatted("{\"titrantMl\": 1, \"sampleG\": 10}")));
    assertThat(problem.get("type").asText()).isEqualTo("/problems/invalid-input");
  }

  @Test
  void isCalculatedTheSameWithoutBeingRecorded() {
    TestStream stream = TestStream.soap();
    JsonNode recorded =
        record(stream, "{\"titrantMl\": 0.15, \"freeAlkaliMl\": 0, \"sampleG\": 10}");
    JsonNode calculated =
        json(
            200,
            post(
                "/calculations/soap",
                """
                {"alkali": "sodium", "titrant": {"normality": 0.01},
                 "replicates": [{"titrantMl": 0.15, "freeAlkaliMl": 0, "sampleG": 10}]}
                """));

    assertThat(calculated.get("result")).isEqualTo(recorded.get("result"));
    assertThat(calculated.at("/verdict/limit")).isEqualTo(recorded.at("/verdict/limit"));
    assertThat(calculated.get("cautions")).isEqualTo(recorded.get("cautions"));
    assertThat(json(200, get(stream.path + "/results")).get("items")).hasSize(1);
  }

  /**
   * 5 mg/kg of sodium is 66.21 mg/kg of soap, 50 mg/kg of potassium soap 6.098 mg/kg of potassium
   * (computed).
   */
  @Test
  void metalAndSoapStandForEachOther() {
    JsonNode soap =
        json(
            200,
            post(
                "/calculations/metal-equivalent", "{\"alkali\": \"sodium\", \"metalMgPerKg\": 5}"));
    assertThat(soap.get("expressedAs").asText()).isEqualTo("sodium oleate");
    assertThat(soap.get("value").asDouble()).isCloseTo(66.21, within(0.005));
    JsonNode metal =
        json(
            200,
            post(
                "/calculations/metal-equivalent",
                "{\"alkali\": \"potassium\", \"soapMgPerKg\": 50}"));
    assertThat(metal.get("metal").asText()).isEqualTo("potassium");
    assertThat(metal.get("value").asDouble()).isCloseTo(6.098, within(0.0005));
  }

  private static JsonNode record(TestStream stream, String replicates) {
    return json(201, post(stream.path + "/titrations", TITRATION.formatted(replicates)));
  }

  private static double soap(JsonNode recorded) {
    return recorded.at("/result/value").asDouble();
  }
}
