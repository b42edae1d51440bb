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
class CatalystTest {

  private static final String OIL =
      """
      {"titrant": {"normality": 0.1}, "blankMl": 0,
       "replicates": [{"titrantMl": 4.0, "sampleG": 10}]%s}
      """;
  private static final String CATALYST =
      ", \"catalyst\": {\"alkali\": \"%s\", \"baseGPerL\": %s, \"assay\": %s}";

  /**
   * Computed: the acid takes 4 * 0.1 / 10 = 0.04 mol/kg, by either figure; (b + 0.04 * rho / 1000 *
   * M) / w with M 56.105 for KOH and 39.997 for NaOH.
   */
  @ParameterizedTest
  @CsvSource({
    "acid-number, potassium, 7, 0.85, 920, 10.66431, KOH",
    "free-fatty-acid, potassium, 7, 0.85, 920, 10.66431, KOH",
    "free-fatty-acid, sodium, 3.5, 0.98, 920, 5.073357, NaOH",
    "free-fatty-acid, sodium, 0, 1, 900, 1.439892, NaOH"
  })
  void isWhatCatalysesAndWhatTheAcidUsesUp(
      String what,
      String alkali,
      double base,
      double assay,
      double density,
      double grams,
      String formula) {
    String more =
        ", \"density15KgPerM3\": %s".formatted(density) + CATALYST.formatted(alkali, base, assay);
    JsonNode found = json(200, post("/calculations/" + what, OIL.formatted(more)));

    assertThat(found.at("/catalyst/gramsPerLitre").asDouble()).isCloseTo(grams, within(1e-5));
    assertThat(found.at("/catalyst/alkali").asText()).isEqualTo(alkali);
    assertThat(found.at("/catalyst/text").asText())
        .contains("g of " + formula + " per litre of oil")
        .contains(formula + " burns skin")
        .contains("local codes");
    assertThat(found.get("cautions").toString()).doesNotContain("for the catalyst");
  }

  @Test
  void saysWhichDensityWasTaken() {
    JsonNode found =
        json(
            200,
            post(
                "/calculations/free-fatty-acid",
                OIL.formatted(CATALYST.formatted("sodium", 0, 1))));

    assertThat(found.at("/catalyst/gramsPerLitre").asDouble())
        .isCloseTo(0.04 * 0.88 * 39.997, within(1e-9));
    assertThat(found.get("cautions").toString()).contains("880 kg/m3").contains("for the catalyst");
  }

  @Test
  void isAnsweredOnlyWhereItWasAskedFor() {
    JsonNode found = json(200, post("/calculations/acid-number", OIL.formatted("")));

    assertThat(found.get("catalyst").isNull()).isTrue();
    json(
        400,
        post(
            "/calculations/soap",
            OIL.formatted(", \"alkali\": \"sodium\"" + CATALYST.formatted("sodium", 0, 1))));
  }

  @ParameterizedTest
  @CsvSource({
    "sodium, -1, 1, #/catalyst/baseGPerL",
    "sodium, 101, 1, #/catalyst/baseGPerL",
    "sodium, 5, 0, #/catalyst/assay",
    "sodium, 5, 85, #/catalyst/assay",
    "sodium, null, 1, #/catalyst/baseGPerL"
  })
  void pointsAtWhatCannotBe(String alkali, String base, String assay, String pointer) {
    String more = CATALYST.formatted(alkali, base, assay);
    JsonNode problem = json(422, post("/calculations/free-fatty-acid", OIL.formatted(more)));

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }
}
