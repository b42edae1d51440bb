package org.sapotrace.titrant;

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
import java.time.LocalDate;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class StrengthTest {

  private static final Instant START = Instant.parse("2026-01-01T08:00:00Z");

  private TestLot lot;

  @BeforeEach
  void setUp() {
    lot = TestLot.of("hydrochloric-acid");
  }

  /** What is on the label: 0.01 ± 5 %, u = 0.05 c / sqrt(3), U = 1.960 u. */
  @Test
  void isTheNominalOneAtFirst() {
    JsonNode strength = strength("2026-01-01T08:00:00Z");

    assertThat(strength.get("lot").asText()).isEqualTo(lot.slug);
    assertThat(strength.get("normality").asDouble()).isEqualTo(0.01);
    assertThat(strength.get("nominalNormality").asDouble()).isEqualTo(0.01);
    assertThat(strength.get("standardUncertainty").asDouble())
        .isCloseTo(0.0002886751, within(1e-10));
    assertThat(strength.get("expandedUncertainty").asDouble())
        .isCloseTo(0.0005657928, within(1e-9));
    assertThat(strength.get("standardisations").asInt()).isZero();
    assertThat(strength.at("/tolerance/lower").asDouble()).isCloseTo(0.0095, within(1e-15));
    assertThat(strength.at("/tolerance/upper").asDouble()).isCloseTo(0.0105, within(1e-15));
    assertThat(strength.get("withinTolerance").asBoolean()).isTrue();
    assertThat(strength.get("drift").isNull()).isTrue();
    assertThat(strength.get("leavesTolerance").isNull()).isTrue();
    assertThat(strength.get("reason").asText()).contains("standardise it");
    assertThat(strength.get("cautions")).hasSize(1);
    assertThat(strength.at("/chart/points")).isEmpty();
  }

  @Test
  void isThatOfTheLatestStandardisationByThen() {
    lot.standardised(0.0101, day(0));
    JsonNode last = lot.standardised(0.0102, day(10));
    lot.standardised(0.0103, day(20));
    JsonNode strength = strength(day(15));

    assertThat(strength.get("normality")).isEqualTo(last.get("normality"));
    assertThat(strength.get("standardUncertainty")).isEqualTo(last.get("standardUncertainty"));
    assertThat(strength.get("standardisations").asInt()).isEqualTo(2);
    assertThat(strength.at("/chart/points")).hasSize(2);
    assertThat(strength.at("/chart/specification/upper").asDouble())
        .isCloseTo(0.0105, within(1e-15));
    assertThat(json(200, get(lot.path + "/strength")).get("standardisations").asInt()).isEqualTo(3);
  }

  @Test
  void saysWhatIsMissingOfADrift() {
    lot.standardised(0.0101, day(0));
    assertThat(strength(day(1)).get("reason").asText()).contains("there is one");
    lot.standardised(0.0102, day(0));

    JsonNode strength = strength(day(1));
    assertThat(strength.get("drift").isNull()).isTrue();
    assertThat(strength.get("reason").asText()).contains("of the same time");
  }

  /** Computed: 2 % in 20 days; half the interval is 1.96 sqrt(u1^2 + u2^2) / 20. */
  @Test
  void driftsByTheUncertaintiesOfTwoStandardisations() {
    double u1 = lot.standardised(0.0100, day(0)).get("standardUncertainty").asDouble();
    double u2 = lot.standardised(0.0102, day(20)).get("standardUncertainty").asDouble();
    JsonNode drift = strength(day(20)).get("drift");

    assertThat(drift.get("perDay").asDouble()).isCloseTo(0.00001, within(1e-11));
    assertThat(drift.get("perCentPerDay").asDouble()).isCloseTo(0.1, within(1e-7));
    assertThat(drift.get("standardError").asDouble())
        .isCloseTo(Math.hypot(u1, u2) / 20, within(1e-11));
    assertThat(drift.get("upper").asDouble() - drift.get("perDay").asDouble())
        .isCloseTo(1.959964 * Math.hypot(u1, u2) / 20, within(1e-10));
    assertThat(drift.get("model").asText()).contains("two standardisations");
  }

  /** Computed: rising or falling by 0.000 025 mol/L a day, 0.000 5 mol/L are used up in 20 days. */
  @ParameterizedTest
  @CsvSource({"1, leaves, 15", "-1, leaves, 15", "1, left, 30"})
  void leavesTheToleranceByTheLine(int way, String said, int asked) {
    for (int i = 0; i <= 5; i++) {
      lot.standardised(0.01 + way * 0.000025 * 3 * i, day(3 * i));
    }
    JsonNode strength = strength(day(asked));

    assertThat(strength.at("/leavesTolerance/on").asText()).isEqualTo("2026-01-21");
    LocalDate on = LocalDate.parse("2026-01-21");
    assertThat(LocalDate.parse(strength.at("/leavesTolerance/earliest").asText()))
        .isBetween(on.minusDays(10), on.minusDays(1));
    assertThat(LocalDate.parse(strength.at("/leavesTolerance/latest").asText()))
        .isBetween(on.plusDays(1), on.plusDays(30));
    assertThat(strength.get("reason").asText())
        .contains(way > 0 ? "rises" : "falls", said + " its tolerance on 2026-01-21");
    assertThat(strength.at("/drift/perDay").asDouble()).isCloseTo(way * 0.000025, within(1e-10));
  }

  @Test
  void leavesNothingWhereNoDriftShows() {
    lot.standardised(0.0100, day(0));
    lot.standardised(0.01001, day(20));
    JsonNode strength = strength(day(20));

    assertThat(strength.at("/drift/lower").asDouble()).isNegative();
    assertThat(strength.get("leavesTolerance").isNull()).isTrue();
    assertThat(strength.get("reason").asText())
        .contains("No drift shows", "A third standardisation");
  }

  /** Computed: 1 % in 400 days, of which 4 % remain; and 6 % above nominal and rising. */
  @ParameterizedTest
  @CsvSource({
    "0.0100, 0.0103, 7200, more than ten years",
    "0.0106, 0.0109, 20, from the first standardisation on"
  })
  void saysWhyNoDateIsGiven(double first, double last, int days, String reason) {
    Instant start = START.minus(Duration.ofDays(7200));
    lot.standardised(first, start.toString());
    String end = start.plus(Duration.ofDays(days)).toString();
    lot.standardised(last, end);
    JsonNode strength = strength(end);

    assertThat(strength.get("leavesTolerance").isNull()).isTrue();
    assertThat(strength.get("reason").asText()).contains(reason);
  }

  @Test
  void forgetsWhatWasWithdrawn() {
    lot.standardised(0.0100, day(0));
    String id = lot.standardised(0.0106, day(10)).get("id").asText();
    assertThat(strength(day(11)).get("withinTolerance").asBoolean()).isFalse();
    json(
        201, post("/results/" + id + "/corrections", "{\"reason\": \"wet\", \"withdrawn\": true}"));
    JsonNode strength = strength(day(11));

    assertThat(strength.get("withinTolerance").asBoolean()).isTrue();
    assertThat(strength.get("standardisations").asInt()).isEqualTo(1);
    assertThat(strength.at("/chart/points")).hasSize(1);
  }

  @Test
  void warnsOfALotThatIsOldOrExpired() {
    TestLot old =
        TestLot.with(
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01, \"expiresOn\":"
                + " \"2026-01-31\"}");
    old.standardised(0.01, day(0));
    JsonNode strength = json(200, get(old.path + "/strength?at=" + day(40)));

    assertThat(strength.get("cautions").toString())
        .contains(
            "This is the strength on 2026-02-10, and lot " + old.slug + " expired on 2026-01-31",
            "was standardised 40 days before, on 2026-01-01");
  }

  @Test
  void isChartedAsStreamsAre() {
    lot.standardised(0.0101, day(0));
    lot.standardised(0.0102, day(10));
    String charts = lot.path + "/strength/charts/";
    JsonNode individuals = json(200, get(charts + "individuals.json"));

    assertThat(json(200, get(lot.path + "/strength")).get("chart")).isEqualTo(individuals);
    assertThat(individuals.get("summary").asText())
        .isEqualTo("Strength of " + lot.slug + ": 2 results, no control limits yet");
    assertThat(json(200, get(charts + "moving-range.json?last=1")).at("/points/0/plotted"))
        .isNotNull();
    assertThat(get(charts + "individuals.png").header("Content-Type")).isEqualTo("image/png");
    assertThat(get(charts + "individuals.svg").asString())
        .contains("titrant strength, mol/L")
        .doesNotContain("null");
    assertThat(get(charts + "individuals.pdf").header("Content-Type")).isEqualTo("application/pdf");
    json(422, get(charts + "capability.json"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "/charts/individuals.json", "/charts/individuals.png"})
  void isThatOfALotOnRecord(String of) {
    json(404, get("/titrants/never-there/strength" + of));
  }

  private JsonNode strength(String at) {
    return json(200, get(lot.path + "/strength?at=" + at));
  }

  private static String day(int day) {
    return START.plus(Duration.ofDays(day)).toString();
  }
}
