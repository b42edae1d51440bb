package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.Arrays;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.Imports;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class StreamPrecisionTest {

  // 10 g at 0.01 mol/L: 304.45 mg/kg a mL of titrant (computed: 0.01 * 304.45 * 1000 / 10).
  private static final double PER_ML = 304.45;
  private static final Instant START = Instant.parse("2026-01-05T06:00:00Z");

  private TestStream stream;

  @BeforeEach
  void addStream() {
    stream = TestStream.soap();
  }

  @Test
  void saysWhatIsMissingWhereNothingIsKnown() {
    JsonNode told = precision("");

    assertThat(told.get("determinations").asInt()).isZero();
    assertThat(told.get("from").isNull()).isTrue();
    for (String part : new String[] {"repeatability", "reproducibility", "measurementShare"}) {
      assertThat(told.get(part).isNull()).as(part).isTrue();
    }
    assertThat(told.get("analysts")).isEmpty();
    assertThat(told.get("advice").toString())
        .contains("titrate a sample twice or more")
        .contains("Two analysts have to titrate the same sample")
        .contains("share of the chart's sigma shows once there are replicates");
  }

  /** Computed: differences of 0.1 (five times) and 0.2 mL, so s_r^2 = (5 * 0.01 + 0.04) / 12. */
  @Test
  void poolsTheRepeatabilityAndTellsItByAnalyst() {
    for (int i = 0; i < 5; i++) {
      record(i, "B" + i, "Ada Winter", 1.0 + i, 1.1 + i);
    }
    record(5, "B5", "Ben Oak", 1.0, 1.2);
    record(6, "B6", "Cy Reed", 1.0);
    String withdrawn = record(7, "B7", "Ben Oak", 1.0, 5.0);
    json(
        201,
        post(
            "/results/" + withdrawn + "/corrections",
            "{\"reason\": \"slip\", \"withdrawn\": true}"));
    JsonNode told = precision("");

    double expected = Math.sqrt(0.09 / 12) * PER_ML;
    JsonNode found = told.get("repeatability");
    assertThat(told.get("determinations").asInt()).isEqualTo(7);
    assertThat(told.get("to").asText()).isEqualTo("2026-01-05T12:00:00Z");
    assertThat(found.get("standardDeviation").asDouble()).isCloseTo(expected, within(1e-9));
    assertThat(found.get("criticalRangeOfTwo").asDouble())
        .isCloseTo(2.771808 * expected, within(1e-4));
    assertThat(found.get("relative").isNull()).isTrue();
    assertThat(found.get("degreesOfFreedom").asInt()).isEqualTo(6);
    assertThat(found.get("sets").asInt()).isEqualTo(6);
    assertThat(found.at("/levelDependence/dependsOnLevel").asBoolean()).isFalse();
    // C = 0.04 / 0.09; critical values for 6 pairs 0.781 and 0.883 (ISO 5725-2, table 4).
    assertThat(found.at("/cochran/statistic").asDouble()).isCloseTo(4 / 9.0, within(1e-9));
    assertThat(found.at("/cochran/stragglerAbove").asDouble()).isCloseTo(0.781, within(1e-3));
    assertThat(found.at("/cochran/outlierAbove").asDouble()).isCloseTo(0.883, within(1e-3));
    assertThat(found.at("/cochran/finding").asText()).isEqualTo("correct");

    JsonNode analysts = told.get("analysts");
    assertThat(analysts.findValuesAsText("analyst"))
        .containsExactly("Ada Winter", "Ben Oak", "Cy Reed");
    assertThat(analysts.at("/0/repeatability/standardDeviation").asDouble())
        .isCloseTo(0.1 / Math.sqrt(2) * PER_ML, within(1e-9));
    assertThat(analysts.at("/0/repeatability/degreesOfFreedom").asInt()).isEqualTo(5);
    assertThat(analysts.at("/2/repeatability").isNull()).isTrue();
    assertThat(told.get("advice").toString())
        .contains("Analyst Cy Reed titrated every sample once")
        .contains("until 10 sets tell");
  }

  /**
   * NumPy: least squares on indicators of samples and of analysts within them, as in the test of
   * the calculation. G = (10.31 - 10.2033) / 0.1290 = 0.8265 of b, and of a (10.06 - 10.2033) /
   * 0.1290 = -1.1110; at 5 and 1 % 1.1543 and 1.1547 (SciPy, from Student's t).
   */
  @Test
  void comparesAnalystsWhoTitratedTheSameSample() {
    record(0, "K-1", "a", 5.01, 5.05);
    record(0, "K-1", "b", 5.20, 5.14);
    record(0, "K-1", "b", 5.18);
    String first = record(1, "K-2", "a", 10.10, 10.02);
    record(1, "K-2", "b", 10.31);
    record(1, "K-2", "c", 10.20, 10.28);
    // The same batch later, and a sample that one titrated, are others.
    record(2, "K-2", "b", 3.0, 3.5);
    JsonNode found = precision("").get("reproducibility");

    assertThat(found.get("repeatability").asDouble())
        .isCloseTo(0.042583251793790056 * PER_ML, within(1e-6));
    assertThat(found.get("between").asDouble())
        .isCloseTo(0.1134628111929608 * PER_ML, within(1e-6));
    assertThat(found.get("standardDeviation").asDouble())
        .isCloseTo(0.12119052296752744 * PER_ML, within(1e-6));
    assertThat(found.get("samples").asInt()).isEqualTo(2);
    assertThat(found.get("analysts").asInt()).isEqualTo(3);
    assertThat(found.at("/grubbs/analyst").asText()).isEqualTo("a");
    assertThat(found.at("/grubbs/result").asText()).isEqualTo(first);
    assertThat(found.at("/grubbs/statistic").asDouble()).isCloseTo(1.1110, within(5e-4));
    assertThat(found.at("/grubbs/stragglerAbove").asDouble()).isCloseTo(1.1543, within(5e-5));
    assertThat(found.at("/grubbs/finding").asText()).isEqualTo("correct");
  }

  /** Computed: 3.00 of 3.00 and 3.00 lies 2 / sqrt 3 = 1.1547 away, and would be an outlier. */
  @Test
  void testsNoAnalystWhereRepeatabilityExplainsTheDifference() {
    record(0, "K-1", "a", 3.00, 3.10);
    record(0, "K-1", "b", 3.00, 3.10);
    record(0, "K-1", "c", 3.01, 3.10);
    JsonNode told = precision("");

    assertThat(told.at("/reproducibility/grubbs").isNull()).isTrue();
    assertThat(told.at("/reproducibility/between").asDouble()).isZero();
    assertThat(told.get("advice").toString()).contains("Whether one analyst stands out");
  }

  @Test
  void namesAnalystsWhoStandOut() {
    record(0, "K-1", "a", 3.00, 3.01);
    record(0, "K-1", "b", 3.00, 3.01);
    String far = record(0, "K-1", "c", 4.00, 4.01);

    JsonNode told = precision("");
    assertThat(told.at("/reproducibility/grubbs/finding").asText()).isEqualTo("outlier");
    assertThat(told.get("cautions").toString())
        .contains("c stands out on batch K-1 (result " + far + "), outlier by Grubbs' test");
  }

  @Test
  void tellsNoAnalystsApartBySingleTitrations() {
    record(0, "K-1", "a", 3.0);
    record(0, "K-1", "b", 3.1);
    JsonNode told = precision("");

    assertThat(told.get("reproducibility").isNull()).isTrue();
    assertThat(told.get("advice").toString()).contains("An analyst has to titrate a sample twice");
  }

  /** Computed: s_r = 0.1 mL / sqrt 2 in pairs and one single; 1/n is 0.75 on the mean of two. */
  @Test
  void tellsTheMeasurementsShareOfTheChart() {
    record(0, "B0", "a", 1.0, 1.1);
    record(1, "B1", "a", 1.0);
    assertThat(precision("").get("advice").toString())
        .contains("shows once there are control limits");
    stream.adopt("{\"given\": {\"centre\": 300, \"sigma\": 50}}");
    JsonNode told = precision("");

    double measurement = 0.1 * PER_ML / Math.sqrt(2) * Math.sqrt(0.75);
    JsonNode share = told.get("measurementShare");
    assertThat(share.get("measurementStandardDeviation").asDouble())
        .isCloseTo(measurement, within(1e-9));
    assertThat(share.get("shareOfVariance").asDouble())
        .isCloseTo(measurement * measurement / 2500, within(1e-9));
    assertThat(share.get("chartSigma").asDouble()).isEqualTo(50);
    assertThat(share.get("limitsRevision").asInt()).isEqualTo(1);
  }

  @Test
  void tellsAShareOfMoreThanAll() {
    record(0, "B0", "a", 1.0, 1.1);
    stream.adopt("{\"given\": {\"centre\": 300, \"sigma\": 2}}");
    JsonNode told = precision("");

    assertThat(told.at("/measurementShare/shareOfVariance").asDouble())
        .isCloseTo(Math.pow(0.1 * PER_ML / 2, 2) / 4, within(1e-6));
    assertThat(told.get("cautions").toString()).contains("more than the chart's sigma of 2 mg/kg");
  }

  /** Computed: each pair differs by 10 % of its mean. */
  @Test
  void tellsScatterInPerCentWhereItGrowsWithTheLevel() {
    for (int i = 1; i <= 8; i++) {
      record(i, "B" + i, "a", 0.95 * i, 1.05 * i);
    }
    JsonNode told = precision("");

    JsonNode found = told.get("repeatability");
    assertThat(found.at("/levelDependence/dependsOnLevel").asBoolean()).isTrue();
    assertThat(found.get("relative").asDouble()).isCloseTo(10 / Math.sqrt(2), within(1e-9));
    assertThat(found.get("level").asDouble()).isCloseTo(4.5 * PER_ML, within(1e-6));
    assertThat(found.get("standardDeviation").asDouble())
        .isCloseTo(0.1 / Math.sqrt(2) * 4.5 * PER_ML, within(1e-6));
    assertThat(told.get("cautions").toString()).contains("The scatter grows with the level");
  }

  @Test
  void namesSetsThatStandOut() {
    for (int i = 0; i < 9; i++) {
      record(i, "B" + i, null, 1.0, 1.1);
    }
    // Computed: C = 0.16 / 0.25 = 0.64 of 10 pairs lies between 0.602 and 0.717 (ISO 5725-2).
    String straggler = record(9, "B9", null, 1.0, 1.4);
    assertThat(precision("").get("cautions").toString())
        .contains("batch B9 (result " + straggler + ") stand out, straggler by Cochran's test")
        .contains("Nobody is named as analyst in 10 of the 10 determinations");

    String outlier = record(10, "B10", null, 1.0, 6.0);
    JsonNode told = precision("");
    assertThat(told.at("/repeatability/cochran/result").asText()).isEqualTo(outlier);
    assertThat(told.at("/repeatability/cochran/finding").asText()).isEqualTo("outlier");
    assertThat(told.at("/repeatability/sets").asInt()).isEqualTo(10);
    assertThat(told.get("cautions").toString())
        .contains("batch B10 (result " + outlier + ") stand out, outlier by Cochran's test, and");
  }

  @Test
  void looksAtTheTimeAskedFor() {
    for (int i = 0; i < 5; i++) {
      record(i, "B" + i, "a", 1.0, 1.1 + i * 0.1);
    }
    JsonNode told = precision("?from=2026-01-05T07:00:00Z&to=2026-01-05T08:00:00Z");

    assertThat(told.get("determinations").asInt()).isEqualTo(2);
    assertThat(told.get("from").asText()).isEqualTo("2026-01-05T07:00:00Z");
    // Computed: differences of 0.2 and 0.3 mL.
    assertThat(told.at("/repeatability/standardDeviation").asDouble())
        .isCloseTo(Math.sqrt(0.13 / 4) * PER_ML, within(1e-9));
    assertThat(told.get("advice").toString()).contains("depends on the level shows with 5 sets");
  }

  @Test
  void saysThatThereIsMoreThanItLookedAt() {
    String rows =
        IntStream.rangeClosed(0, 1000)
            .mapToObj(hour -> titration(hour, "B" + hour, "a", 1.0).replaceAll("\\s+", ""))
            .collect(Collectors.joining("\n"));
    assertThat(json(200, Imports.ndjson(stream, rows)).get("accepted").asInt()).isEqualTo(1001);
    JsonNode told = precision("");

    assertThat(told.get("determinations").asInt()).isEqualTo(1000);
    assertThat(told.get("from").asText()).isEqualTo("2026-01-05T07:00:00Z");
    assertThat(told.get("cautions").toString()).contains("the latest 1000 were looked at");
  }

  @Test
  void isUnknownOfAnUnknownStream() {
    json(404, get(stream.path + "-else/precision"));
  }

  private JsonNode precision(String query) {
    return json(200, get(stream.path + "/precision" + query));
  }

  private String record(int hour, String batch, String analyst, double... titrantMl) {
    return json(201, post(stream.path + "/titrations", titration(hour, batch, analyst, titrantMl)))
        .get("id")
        .asText();
  }

  private static String titration(int hour, String batch, String analyst, double... titrantMl) {
    return """
        {"batch": "%s", "sampledAt": "%s", "analyst": %s, "titrant": {"normality": 0.01},
         "replicates": [%s]}
        """
        .formatted(
            batch,
            START.plus(Duration.ofHours(hour)),
            analyst == null ? null : '"' + analyst + '"',
            Arrays.stream(titrantMl)
                .mapToObj("{\"titrantMl\": %s, \"sampleG\": 10}"::formatted)
                .collect(Collectors.joining(", ")));
  }
}
