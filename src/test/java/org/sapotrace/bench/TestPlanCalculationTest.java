package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
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
class TestPlanCalculationTest {

  @Test
  void raisesTheSampleBeforeTheNumberOfTitrations() {
    String body =
        "{\"alkali\": \"sodium\", \"levelMgPerKg\": 60, \"expandedUncertaintyMgPerKg\": %s%s}";
    String burette = ", \"glassware\": \"burette-10ml\"";
    JsonNode easy = plan(body.formatted(40, burette));
    JsonNode hard = plan(body.formatted(4, burette));
    JsonNode hopeless = plan(body.formatted(0.001, ""));

    assertThat(easy.get("replicates").asInt()).isOne();
    assertThat(hard.get("replicates").asInt()).isOne();
    assertThat(hard.get("sampleG").asDouble()).isGreaterThan(easy.get("sampleG").asDouble());
    assertThat(hard.get("expandedUncertainty").asDouble()).isLessThanOrEqualTo(4);
    assertThat(hard.get("alternatives").findValuesAsText("glassware"))
        .contains("measuring-pipette-1ml")
        .doesNotContain("burette-10ml");
    assertThat(hopeless.get("reason").asText())
        .contains("Nothing reaches")
        .contains("25 mL class A");
  }

  @ParameterizedTest
  @CsvSource({
    "-1, 4, burette-10ml, #/levelMgPerKg",
    "60, 0, burette-10ml, #/expandedUncertaintyMgPerKg",
    "60, 4, volumetric-flask-10ml, #/glassware",
    "1000000, 4, measuring-pipette-1ml, #/glassware"
  })
  void refusesPlansThatCannotBeMade(double level, double wanted, String piece, String pointer) {
    JsonNode problem =
        json(
            422,
            post(
                "/calculations/test-plan",
                """
                {"alkali": "sodium", "levelMgPerKg": %s, "expandedUncertaintyMgPerKg": %s,
                 "glassware": "%s"}
                """
                    .formatted(level, wanted, piece)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  private static JsonNode plan(String body) {
    return json(200, post("/calculations/test-plan", body));
  }
}
