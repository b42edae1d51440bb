package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.util.Arrays;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class ReplicateTitrationsTest {

  // 10 g at 0.01 mol/L: 304.45 mg/kg a mL of titrant (computed: 0.01 * 304.45 * 1000 / 10).
  private static final double PER_ML = 304.45;

  @Inject ObjectMapper stored;

  /**
   * Computed: s_r^2 = u(reading)^2 + u(end point)^2 + u(mass)^2 of a single titration, and f(2) =
   * 2.77 (ISO 5725-6).
   */
  @Test
  void agreeWithinTheCriticalRangeOfTheirOwnBudget() {
    JsonNode result = record(TestStream.soap(), 0.15, 0.16).get("result");
    double variance = 0;
    for (JsonNode part : result.get("budget")) {
      if (part.get("source").asText().matches("titrant reading|end point|sample mass")) {
        variance += 2 * Math.pow(part.get("standardUncertainty").asDouble(), 2);
      }
    }

    assertThat(result.at("/agreement/range").asDouble()).isCloseTo(0.01 * PER_ML, within(1e-9));
    assertThat(result.at("/agreement/criticalRange").asDouble())
        .isCloseTo(2.77 * Math.sqrt(variance), within(0.001 * 2.77 * Math.sqrt(variance)));
    assertThat(result.at("/agreement/accepted").asBoolean()).isTrue();
    assertThat(result.at("/agreement/branch").asText()).isEqualTo("mean of 2");
    assertThat(result.at("/agreement/needed").asInt()).isZero();
    JsonNode comparedBy = result.at("/agreement/repeatability");
    assertThat(comparedBy.get("source").asText()).isEqualTo("budget");
    assertThat(comparedBy.get("standardDeviation").asDouble())
        .isCloseTo(Math.sqrt(variance), within(1e-9));
    assertThat(comparedBy.get("pairs").isNull()).isTrue();
  }

  @Test
  void areNotComparedWhereThereIsOne() {
    assertThat(record(TestStream.soap(), 0.15).at("/result/agreement").isNull()).isTrue();
  }

  /** The most that is taken, as strictly as 25 of them. */
  @Test
  void areComparedHoweverManyThereAre() {
    double[] many = DoubleStream.generate(() -> 0.15).limit(100).toArray();
    assertThat(record(TestStream.soap(), many).at("/result/agreement/branch").asText())
        .isEqualTo("mean of 100");
    many[99] = 3;
    JsonNode disagreeing = record(TestStream.soap(), many);
    assertThat(disagreeing.at("/result/agreement/branch").asText()).isEqualTo("median of 100");
    assertThat(disagreeing.at("/verdict/advice").asText()).isEqualTo("retest");
  }

  /** ISO 5725-6, 5.2.2: four that lie close enough together stand by their mean. */
  @Test
  void areReportedByTheMeanOfAllWhereFurtherOnesSettleIt() {
    TestStream stream = TestStream.soap();
    // Computed: s_r of this budget is 0.048 mL, so that 2 may differ by 0.133 mL and 4 by 0.174 mL.
    JsonNode first = record(stream, 0.10, 0.25);
    assertThat(first.at("/result/agreement/branch").asText()).isEqualTo("mean of 2");
    assertThat(first.at("/result/agreement/accepted").asBoolean()).isFalse();
    JsonNode corrected =
        json(
            201,
            post(
                "/results/" + first.get("id").asText() + "/corrections",
                "{\"reason\": \"titrated again\", \"titration\": %s}"
                    .formatted(titration(0.10, 0.25, 0.16, 0.17))));
    assertThat(corrected.at("/result/agreement/branch").asText()).isEqualTo("mean of 4");
    assertThat(corrected.at("/result/agreement/accepted").asBoolean()).isTrue();
    assertThat(corrected.at("/result/value").asDouble()).isCloseTo(0.17 * PER_ML, within(1e-9));
  }

  /** By both readings 6 and 0.15 mL, or their mean, this batch would be judged outright. */
  @Test
  void areRecordedAndChartedByTheirMeanWhereTheyDisagree() {
    TestStream stream = TestStream.soap();
    JsonNode recorded = record(stream, 0.15, 6);

    assertThat(recorded.at("/result/value").asDouble()).isCloseTo(3.075 * PER_ML, within(1e-9));
    assertThat(recorded.at("/result/agreement/accepted").asBoolean()).isFalse();
    assertThat(recorded.at("/result/agreement/needed").asInt()).isEqualTo(2);
    assertThat(recorded.at("/verdict/outcome").asText()).isEqualTo("inconclusive");
    assertThat(recorded.at("/verdict/advice").asText()).isEqualTo("retest");
    assertThat(recorded.at("/verdict/reason").asText()).contains("2 more times");
    assertThat(recorded.at("/verdict/replicatesToDecide").asInt()).isEqualTo(2);
    // JCGM 100:2008, 4.2.3: s / sqrt(2) of two values is half of what they differ by.
    assertThat(recorded.at("/result/standardUncertainty").asDouble())
        .isCloseTo((6 - 0.15) / 2 * PER_ML, within(0.01 * PER_ML));
    assertThat(recorded.at("/result/budget/0/source").asText())
        .isEqualTo("disagreement of the replicates");
    assertThat(recorded.at("/verdict/probabilityConforming").asDouble()).isBetween(0.2, 0.8);
    assertThat(stream.chart("individuals").at("/points/0/value"))
        .isEqualTo(recorded.at("/result/value"));
  }

  /** ISO 5725-6, 5.2.2: the median of four; of 0.15, 6, 0.16 and 0.17 mL it is 0.165 mL. */
  @Test
  void areReportedByTheMedianWhereFurtherOnesDoNotAgreeEither() {
    TestStream stream = TestStream.soap();
    String id = record(stream, 0.15, 6).get("id").asText();
    JsonNode corrected =
        json(
            201,
            post(
                "/results/" + id + "/corrections",
                "{\"reason\": \"titrated again\", \"titration\": %s}"
                    .formatted(titration(0.15, 6, 0.16, 0.17))));

    assertThat(corrected.at("/result/value").asDouble()).isCloseTo(0.165 * PER_ML, within(1e-9));
    assertThat(corrected.at("/result/agreement/branch").asText()).isEqualTo("median of 4");
    assertThat(corrected.at("/result/agreement/accepted").asBoolean()).isTrue();
    assertThat(corrected.at("/result/metalEquivalent/value").asDouble())
        .isCloseTo(corrected.at("/result/value").asDouble() / 66.2136 * 5, within(1e-3));
    assertThat(corrected.get("cautions").toString()).contains("median of 4");
    assertThat(corrected.at("/verdict/outcome").asText()).isEqualTo("inconclusive");
    assertThat(corrected.at("/verdict/advice").asText()).isEqualTo("retest");
    assertThat(stream.chart("individuals").at("/points/0/value"))
        .isEqualTo(corrected.at("/result/value"));
  }

  /** What was on record before replicates were compared, shortened. */
  @Test
  void ofBeforeTheyWereComparedAreStillRead() throws Exception {
    Assessment read =
        stored.readValue(
            """
            {"result": {"value": 45.6, "unit": "mg/kg", "standardUncertainty": 1.5,
              "expandedUncertainty": 2.9, "coverageFactor": 1.96, "effectiveDegreesOfFreedom": null,
              "replicates": [45.0, 46.2], "budget": [], "metalEquivalent": null},
             "belowDetection": false, "verdict": null, "cautions": []}
            """,
            Assessment.class);
    Readings readings =
        stored.readValue(
            """
            {"titrant": {"normality": 0.01}, "blankMl": null, "glassware": null,
             "replicates": [{"titrantMl": 0.15, "sampleG": 10.0}]}
            """,
            Readings.class);

    assertThat(read.result().agreement()).isNull();
    assertThat(read.result().replicates()).containsExactly(45.0, 46.2);
    assertThat(readings.replicates()).hasSize(1);
  }

  private static JsonNode record(TestStream stream, double... titrantMl) {
    JsonNode recorded = json(201, post(stream.path + "/titrations", titration(titrantMl)));
    assertThat(json(200, get("/results/" + recorded.get("id").asText())).get("result"))
        .isEqualTo(recorded.get("result"));
    return recorded;
  }

  private static String titration(double... titrantMl) {
    return """
        {"batch": "K-0142", "sampledAt": "2026-03-04T09:20:00Z", "titrant": {"normality": 0.01},
         "replicates": [%s]}
        """
        .formatted(
            Arrays.stream(titrantMl)
                .mapToObj("{\"titrantMl\": %s, \"sampleG\": 10}"::formatted)
                .collect(Collectors.joining(", ")));
  }
}
