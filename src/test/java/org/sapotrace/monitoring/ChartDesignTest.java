package org.sapotrace.monitoring;

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
class ChartDesignTest {

  // Sources: arl_run_rules.csv; arl_imr.csv; arl_cusum.csv.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"rules\": \"beyond-limits\" | markov-chain | 370.398347",
        "\"rules\": \"western-electric-1956\" | markov-chain | 91.750773",
        "\"rules\": [\"beyond-limits\", \"nine-same-side\"] | markov-chain | 216.695544",
        "\"rules\": [\"beyond-limits\"], \"movingRange\": true | integral-equation | 105.330932",
        "\"movingRange\": true, \"rules\": null, \"ewma\": null | integral-equation | 120.481826",
        "\"cusum\": {\"decision\": 4} | integral-equation | 167.683789",
        "\"ewma\": {\"lambda\": 0.1} | integral-equation | 356.095097"
      })
  void answersForWhatIsIncludedOnly(String settings, String method, double inControl) {
    JsonNode first = design(settings).at("/averageRunLength/0");

    assertThat(first.get("method").asText()).isEqualTo(method);
    assertThat(first.get("mean").asDouble()).isCloseTo(inControl, within(1e-6));
    assertThat(first.get("standardError").isNull()).isTrue();
  }

  @Test
  void countsFalseAlarmsAtTheRateOfSampling() {
    JsonNode daily = design("\"rules\": [\"beyond-limits\"]");
    JsonNode oftener = design("\"rules\": [\"beyond-limits\"], \"resultsPerDay\": 24");

    // Source: 365.25 / 370.398347.
    assertThat(daily.get("falseAlarmsPerYear").asDouble()).isCloseTo(0.986101, within(1e-6));
    assertThat(oftener.get("falseAlarmsPerYear").asDouble()).isCloseTo(23.666415, within(1e-5));
    assertThat(daily.get("suggestions").isNull()).isTrue();
    assertThat(daily.get("averageRunLength").findValuesAsText("shift"))
        .containsExactly("0.0", "0.25", "0.5", "0.75", "1.0", "1.5", "2.0", "3.0");
  }

  @Test
  void simulatesWhatCannotBeComputed() {
    String settings = "\"rules\": [\"nelson-1984\"], \"ewma\": {}";
    JsonNode design = design(settings);

    assertThat(design.get("averageRunLength"))
        .allSatisfy(
            run -> {
              assertThat(run.get("method").asText()).isEqualTo("simulation");
              assertThat(run.get("standardError").asDouble()).isPositive();
            });
    assertThat(design(settings)).isEqualTo(design);
  }

  @Test
  void suggestsTheSameForAShiftInMgPerKgAsInSigma() {
    JsonNode inSigma = design("\"wanted\": {\"falseAlarmsPerYear\": 2, \"shift\": 1.5}");
    JsonNode inUnits =
        design("\"wanted\": {\"falseAlarmsPerYear\": 2, \"shiftMgPerKg\": 6, \"sigmaMgPerKg\": 4}");

    assertThat(inUnits).isEqualTo(inSigma);
    assertThat(inSigma.get("averageRunLength")).isEmpty();
    assertThat(inSigma.get("falseAlarmsPerYear").isNull()).isTrue();
    assertThat(inSigma.get("suggestions")).hasSizeGreaterThan(4);
    assertThat(inSigma.get("suggestions"))
        .allSatisfy(
            each -> assertThat(each.get("falseAlarmsPerYear").asDouble()).isLessThanOrEqualTo(2));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      nullValues = "-",
      value = {
        " | - | Name at least one of rules, ewma, cusum and movingRange",
        "\"rules\": [], \"movingRange\": false | - | Nothing here raises a signal",
        "\"rules\": [\"seven-same-side\"] | #/rules/0 | Use one of beyond-limits",
        "\"ewma\": {\"lambda\": 0} | #/ewma/lambda | from 0.001 to 1",
        "\"ewma\": {\"lambda\": 1.01} | #/ewma/lambda | from 0.001 to 1",
        "\"ewma\": {\"width\": 6.01} | #/ewma/width | at most 6 standard deviations",
        "\"cusum\": {\"reference\": -0.1} | #/cusum/reference | take half the shift",
        "\"cusum\": {\"reference\": 3.1} | #/cusum/reference | less than or equal to 3",
        "\"cusum\": {\"decision\": 20.1} | #/cusum/decision | less than or equal to 20",
        "\"cusum\": {\"headStart\": 5.1} | #/cusum/headStart | half the decision value is usual",
        "\"movingRange\": true, \"resultsPerDay\": 0 | #/resultsPerDay | greater than 0",
        "\"ewma\": {\"width\": 6}, \"cusum\": {\"decision\": 20} | - | Ask for its parts one by one",
        "\"wanted\": {\"falseAlarmsPerYear\": 1} | #/wanted | shiftMgPerKg together with sigmaMgPerKg",
        "\"wanted\": {\"falseAlarmsPerYear\": 1, \"shift\": 1, \"sigmaMgPerKg\": 2} | #/wanted | Say how large",
        "\"wanted\": {\"falseAlarmsPerYear\": 1, \"shift\": 7} | #/wanted | from 0.1 to 6",
        "\"wanted\": {\"falseAlarmsPerYear\": 37, \"shift\": 1} | #/wanted | one in 10 to one in a million",
        "\"wanted\": {\"shift\": 1} | #/wanted/falseAlarmsPerYear | must not be null"
      })
  void refusesWithAWayOut(String settings, String pointer, String says) {
    JsonNode problem = json(422, post(PATH, "{" + (settings == null ? "" : settings) + "}"));

    assertThat(problem.at("/errors/0/pointer").asText(null)).isEqualTo(pointer);
    assertThat(problem.get("detail").asText()).contains(says);
  }

  private static final String PATH = "/calculations/chart-design";

  private static JsonNode design(String settings) {
    return json(200, post(PATH, "{" + settings + "}"));
  }
}
