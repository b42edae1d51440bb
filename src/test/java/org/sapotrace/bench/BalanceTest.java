package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class BalanceTest {

  private static final String TITRATION =
      """
      {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": 0.01},
       "balance": "%s", "replicates": [{"titrantMl": 1, "sampleG": 10}]}
      """;

  /** Rectangular over 1 g to either side of 10 g: 1 / sqrt(3) / 10 of 304.45 mg/kg (computed). */
  @Test
  void countsInTheBudgetByWhatItReadsTo() {
    JsonNode recorded = recorded("balance-1g");

    assertThat(massPart(recorded)).isCloseTo(304.45 / Math.sqrt(3) / 10, within(0.001));
    assertThat(massPart(recorded) / massPart(recorded("balance-100mg")))
        .isCloseTo(10, within(1e-6));
    assertThat(recorded.get("cautions").toString()).doesNotContain("balance");
  }

  @Test
  void isReadAgainWithTheResult() {
    String id = recorded("balance-1mg").get("id").asText();

    assertThat(json(200, get("/results/" + id)).get("balance").asText()).isEqualTo("balance-1mg");
  }

  @Test
  void isOneOfThoseListed() {
    JsonNode first = json(200, get("/balances?limit=4"));
    JsonNode rest = json(200, get("/balances?limit=4&cursor=" + first.get("next").asText()));

    assertThat(first.get("items").findValuesAsText("balance"))
        .containsExactly("balance-1g", "balance-100mg", "balance-10mg", "balance-1mg");
    assertThat(first.at("/items/2/readabilityG").asDouble()).isEqualTo(0.01);
    assertThat(rest.get("items").findValuesAsText("balance"))
        .containsExactly("balance-100ug", "balance-10ug");
  }

  @ParameterizedTest
  @ValueSource(strings = {"titration", "calculation", "standardisation"})
  void isRefusedWhereItIsNotListed(String where) {
    String body = TITRATION.formatted("steelyard");
    JsonNode problem =
        json(
            422,
            switch (where) {
              case "titration" -> post(TestStream.soap().path + "/titrations", body);
              case "calculation" -> post("/calculations/acid-number", body);
              default ->
                  post(
                      "/calculations/standardisation",
                      """
                      {"standard": "tris", "balance": "steelyard",
                       "replicates": [{"standardG": 0.2, "titrantMl": 16}]}
                      """);
            });

    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/balance");
    assertThat(problem.get("detail").asText()).contains("steelyard").contains("balance-10mg");
  }

  /** 0.2 g of tris, equivalent mass 121.135, in 16.51 mL (computed). */
  @Test
  void countsForStandardsToo() {
    String body =
        """
        {"standard": "tris", %s"replicates": [{"standardG": 0.2, "titrantMl": 16.51}]}
        """;
    JsonNode assumed = json(200, post("/calculations/standardisation", body.formatted("")));
    JsonNode coarse =
        json(
            200,
            post(
                "/calculations/standardisation",
                body.formatted("\"balance\": \"balance-10mg\", ")));

    assertThat(assumed.get("normality").asDouble()).isCloseTo(0.1, within(1e-5));
    assertThat(assumed.get("cautions").toString()).contains("No balance was named");
    assertThat(coarse.get("cautions").toString()).doesNotContain("balance");
    assertThat(coarse.get("standardUncertainty").asDouble())
        .isGreaterThan(2 * assumed.get("standardUncertainty").asDouble());
  }

  private static JsonNode recorded(String balance) {
    return json(201, post(TestStream.soap().path + "/titrations", TITRATION.formatted(balance)));
  }

  private static double massPart(JsonNode recorded) {
    return StreamSupport.stream(recorded.at("/result/budget").spliterator(), false)
        .filter(part -> part.get("source").asText().equals("sample mass"))
        .findFirst()
        .orElseThrow()
        .get("standardUncertainty")
        .asDouble();
  }
}
