package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class CalculationTest {

  private static final String SOAP =
      """
      {"alkali": "sodium", "titrant": {"normality": 0.01, "standardUncertainty": 0.00002},
       "blankMl": 0.1, "replicates": [%s]}
      """;
  private static final String WEIGHED = "{\"titrantMl\": 2.27, \"sampleG\": 100}";
  private static final String BY_DISTRIBUTIONS = "?propagation=monte-carlo";

  /** The model is all but linear, so both laws come to the same u (JCGM 101, 5.8). */
  @Test
  void propagatesDistributionsWhereItIsAskedTo() {
    JsonNode plain = calculate("soap", SOAP.formatted(WEIGHED));
    JsonNode drawn = calculate("soap" + BY_DISTRIBUTIONS, SOAP.formatted(WEIGHED));
    double u = plain.at("/result/standardUncertainty").asDouble();

    assertThat(drawn.at("/result/standardUncertainty").asDouble())
        .isNotEqualTo(u)
        .isCloseTo(u, within(0.02 * u));
    assertThat(drawn.at("/result/expandedUncertainty").asDouble())
        .isCloseTo(plain.at("/result/expandedUncertainty").asDouble(), within(0.05 * 1.96 * u));
    assertThat(drawn.at("/result/value")).isEqualTo(plain.at("/result/value"));
    assertThat(drawn.at("/result/budget")).isEqualTo(plain.at("/result/budget"));
    assertThat(drawn.at("/result/effectiveDegreesOfFreedom").isNull()).isTrue();
    assertThat(drawn.get("cautions")).isEqualTo(plain.get("cautions"));
    assertThat(calculate("soap" + BY_DISTRIBUTIONS, SOAP.formatted(WEIGHED))).isEqualTo(drawn);
  }

  /** A balance that errs by 5.8 mg makes 1/m of 60 mg visibly skew. */
  @Test
  void saysWhereTheTwoLawsDisagree() {
    JsonNode drawn =
        calculate(
            "soap" + BY_DISTRIBUTIONS, SOAP.formatted("{\"titrantMl\": 2.27, \"sampleG\": 0.06}"));

    assertThat(drawn.get("cautions").toString()).contains("disagree by more than 5 %");
  }

  @Test
  void takesNoPortionThatItsBalanceHardlySees() {
    JsonNode problem =
        json(
            422,
            post(
                "/calculations/soap",
                """
                {"alkali": "sodium", "titrant": {"normality": 0.01}, "balance": "balance-1g",
                 "replicates": [{"titrantMl": 0.11, "sampleG": 5}]}
                """));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/replicates");
    assertThat(problem.get("detail").asText()).contains("weigh out more of the sample");
  }

  /** Computed: (2.27 - 0.35 - 0.10) * 0.01 * 304.45 * 1000 / 100 = 55.41. */
  @Test
  void takesTheFirstEndPointOffWhatIsSoap() {
    JsonNode soap =
        calculate(
            "soap",
            SOAP.formatted("{\"titrantMl\": 2.27, \"freeAlkaliMl\": 0.35, \"sampleG\": 100}"));

    assertThat(soap.at("/result/value").asDouble()).isCloseTo(55.41, within(0.005));
    assertThat(soap.at("/result/budget").toString()).contains("first end point");
  }

  @Test
  void takesTheFirstEndPointOfAllReplicatesOrOfNone() {
    JsonNode problem =
        json(
            422,
            post(
                "/calculations/soap",
                SOAP.formatted(
                    WEIGHED + ", {\"titrantMl\": 2, \"freeAlkaliMl\": 0, \"sampleG\": 100}")));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/replicates");
    assertThat(problem.get("detail").asText()).contains("of every replicate or of none");
  }

  /**
   * Computed: 0.35 * 0.01 * 56.105 * 1000 / 20 = 9.818 as potassium hydroxide; with the blank,
   * which is not taken off; as sodium hydroxide 39.997 / 56.105 of it.
   */
  @ParameterizedTest
  @CsvSource({"potassium, 9.818", "sodium, 6.999"})
  void findsFreeAlkaliFromTheFirstEndPoint(String alkali, double expected) {
    JsonNode found =
        calculate(
            "free-alkali",
            SOAP.formatted("{\"titrantMl\": 2.27, \"freeAlkaliMl\": 0.35, \"sampleG\": 20}")
                .replace("sodium", alkali));

    assertThat(found.at("/result/value").asDouble()).isCloseTo(expected, within(0.001));
    assertThat(found.at("/result/unit").asText()).isEqualTo("mg/kg");
    assertThat(found.at("/result/metalEquivalent").isNull()).isTrue();
    assertThat(found.get("verdict").isNull()).isTrue();
  }

  /** Computed: (1.52 - 0.05) * 0.1 * 56.105 / 20 = 0.4124 mg/g; with 28.2 for 56.105 0.2073 %. */
  @ParameterizedTest
  @CsvSource({"acid-number, 0.4124, mg/g", "free-fatty-acid, 0.2073, %"})
  void findsAcidity(String what, double expected, String unit) {
    String body =
        """
        {"titrant": {"normality": 0.1}, "blankMl": 0.05,
         "replicates": [{"titrantMl": 1.52, "sampleG": 20}]%s}
        """;
    JsonNode found = calculate(what, body.formatted(", \"specification\": {\"upper\": 1}"));

    assertThat(found.at("/result/value").asDouble()).isCloseTo(expected, within(0.00006));
    assertThat(found.at("/result/unit").asText()).isEqualTo(unit);
    assertThat(found.at("/verdict/outcome").asText()).isEqualTo("conforming");
    assertThat(found.at("/verdict/reason").asText()).contains("1 " + unit);
    assertThat(calculate(what, body.formatted("")).get("verdict").isNull()).isTrue();
    json(400, post("/calculations/" + what, body.formatted(", \"alkali\": \"sodium\"")));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"density15StandardUncertainty\": 5 | density15StandardUncertainty | invalid-input",
        "\"throughput\": {} | throughput | invalid-input",
        "\"throughput\": {\"litres\": -1} | throughput/litres | invalid-input",
        "\"inletMgPerKg\": 0 | inletMgPerKg | invalid-input"
      })
  void refusesWhatSaysNothingAndWhatCannotBe(String field, String pointer, String type) {
    String body =
        "{\"titrant\": {\"normality\": 0.1}, \"replicates\": [{\"titrantMl\": 1, \"sampleG\": 20}], %s}";
    JsonNode problem = json(422, post("/calculations/acid-number", body.formatted(field)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/" + pointer);
    assertThat(problem.get("type").asText()).isEqualTo("/problems/" + type);
  }

  /** They are what forecasts rest on, and a calculation forecasts nothing. */
  @Test
  void isTheSameWhateverWentThroughAndCameIn() {
    String body =
        "{\"titrant\": {\"normality\": 0.1}, \"replicates\": [{\"titrantMl\": 1, \"sampleG\": 20}]%s}";

    assertThat(
            calculate(
                "acid-number",
                body.formatted(", \"throughput\": {\"litres\": 1}, \"inletMgPerKg\": 1150")))
        .isEqualTo(calculate("acid-number", body.formatted("")));
  }

  /** Computed: 1000 * 0.0532 * 0.9995 / (52.994 * 10.04), and 5.3 g * 10 / 1000 in place of it. */
  @Test
  void findsTheNormalityOfATitrant() {
    JsonNode found =
        calculate(
            "standardisation",
            """
            {"standard": "sodium-carbonate", "purity": 0.9995, "blankMl": 0,
             "replicates": [
               {"standardG": 0.0532, "titrantMl": 10.04},
               {"solution": {"standardG": 5.3, "volumeMl": 1000}, "aliquotMl": 10, "titrantMl": 10}]}
            """);

    assertThat(found.at("/replicates/0").asDouble()).isCloseTo(0.099939, within(1e-6));
    assertThat(found.at("/replicates/1").asDouble()).isCloseTo(0.099961, within(1e-6));
    assertThat(found.get("normality").asDouble()).isCloseTo(0.09995, within(1e-6));
    assertThat(found.at("/agreement/accepted").asBoolean()).isTrue();
    assertThat(found.get("changeSinceLast").isNull()).isTrue();
    assertThat(found.get("cautions").toString()).contains("25 mL class A").contains("0.1 mg");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"titrantMl\": 1} | #/replicates/0 | standardG",
        "{\"standardG\": 1, \"aliquotMl\": 1, \"titrantMl\": 1} | #/replicates/0 | aliquotMl",
        "{\"standardG\": -1, \"titrantMl\": 1} | #/replicates/0/standardG | mass",
        "{\"standardG\": 1, \"titrantMl\": 0} | #/replicates | blank",
        "{\"solution\": {\"standardG\": 1, \"volumeMl\": 5}, \"aliquotMl\": 6, \"titrantMl\": 1}"
            + " | #/replicates/0/aliquotMl | aliquot",
        "{\"solution\": {\"standardG\": 1}, \"aliquotMl\": 6, \"titrantMl\": 1}"
            + " | #/replicates/0/solution/volumeMl | volumeMl"
      })
  void pointsAtTheStandardThatCannotBe(String run, String pointer, String word) {
    String body = "{\"standard\": \"tris\", \"replicates\": [%s]}".formatted(run);
    JsonNode problem = json(422, post("/calculations/standardisation", body));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    assertThat(problem.get("detail").asText()).contains(word);
  }

  private static JsonNode calculate(String what, String body) {
    return json(200, post("/calculations/" + what, body));
  }
}
