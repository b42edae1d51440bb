package org.sapotrace.bench;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** What is recorded all the same, with a sentence that says what to check. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class OddTitrationTest {

  private static final String TITRATION =
      """
      {"batch": "B", "sampledAt": "2026-03-0%dT09:00:00Z", "titrant": {"normality": %s},
       "blankMl": 0.05, %s"replicates": [%s]}
      """;
  private static final String USUAL = "{\"titrantMl\": 1, \"sampleG\": 40}";

  /** Common practice, no source: below 30 % of the capacity a reading is poor. */
  @ParameterizedTest
  @CsvSource({
    "crude, 2.99, 40, true",
    "crude, 3, 40, false",
    "after-wash, 2.99, 39.9, true",
    "after-wash, 2.99, 40, false",
    "other, 2.99, 20, true",
    "other, 2.99, 40, false"
  })
  void saysWhereTheGlasswareIsTooLarge(String point, double ml, double g, boolean isSaid) {
    String replicate = "{\"titrantMl\": %s, \"freeAlkaliMl\": 0, \"sampleG\": %s}".formatted(ml, g);
    List<String> cautions =
        cautions(titrated(stream(point), 1, "0.01", "burette-10ml", replicate + ", " + replicate));

    assertThat(cautions.stream().filter(each -> each.contains("finer glassware")))
        .hasSize(isSaid ? 1 : 0);
  }

  @Test
  void saysNothingOfGlasswareThatNobodyNamed() {
    assertThat(cautions(titrated(stream("crude"), 1, "0.01", null, USUAL)))
        .noneMatch(each -> each.contains("finer glassware"));
  }

  /** Ten times off, and molarity for the normality of a diprotic acid: both are common slips. */
  @ParameterizedTest
  @CsvSource({
    "0.01, 0.1, decimal point",
    "0.01, 0.05, decimal point",
    "0.01, 0.001, decimal point",
    "0.01, 0.02, diprotic",
    "0.0102, 0.0051, diprotic",
    "0.01, 0.022, diprotic",
    "0.01, 0.018, diprotic"
  })
  void comparesTheNormalityWithTheTitrationBefore(String before, String now, String word) {
    TestStream stream = stream("other");
    titrated(stream, 2, before, null, USUAL);
    List<String> cautions = cautions(titrated(stream, 3, now, null, USUAL));

    assertThat(cautions.get(0)).contains(before + " mol/L").contains(now + " mol/L").contains(word);
    assertThat(cautions(titrated(stream, 1, now, null, USUAL)))
        .noneMatch(OddTitrationTest::compares);
  }

  @ParameterizedTest
  @CsvSource({"0.01, 0.0102", "0.01, 0.0175", "0.01, 0.0225", "0.02, 0.09"})
  void takesAnotherBottleForNoSlip(String before, String now) {
    TestStream stream = stream("other");
    titrated(stream, 2, before, null, USUAL);

    assertThat(cautions(titrated(stream, 3, now, null, USUAL)))
        .noneMatch(OddTitrationTest::compares);
  }

  /** What another laboratory found, or was withdrawn, took no titrant of this bench. */
  @Test
  void comparesWithTheLastTitrationThatCounts() {
    TestStream stream = stream("other");
    titrated(stream, 1, "0.01", null, USUAL);
    String withdrawn = titrated(stream, 2, "0.1", null, USUAL).get("id").asText();
    json(
        201,
        post(
            "/results/" + withdrawn + "/corrections",
            "{\"reason\": \"flasks mixed up\", \"withdrawn\": true}"));
    stream.recordAt(30, Instant.parse("2026-03-02T12:00:00Z"));

    assertThat(cautions(titrated(stream, 3, "0.01", null, USUAL)))
        .noneMatch(OddTitrationTest::compares);
    assertThat(cautions(titrated(stream, 4, "0.1", null, USUAL)))
        .anyMatch(OddTitrationTest::compares);
  }

  @Test
  void comparesACorrectionWithWhatCameBeforeIt() {
    TestStream stream = stream("other");
    titrated(stream, 2, "0.01", null, USUAL);
    String id = titrated(stream, 3, "0.1", null, USUAL).get("id").asText();
    String corrected =
        "{\"reason\": \"decimal point\", \"titration\": %s}"
            .formatted(body(3, "0.01", null, USUAL));

    assertThat(cautions(json(201, post("/results/" + id + "/corrections", corrected))))
        .noneMatch(OddTitrationTest::compares);
    String odd = corrected.replace("0.01", "0.2");
    assertThat(cautions(json(201, post("/results/" + id + "/corrections", odd))))
        .anyMatch(OddTitrationTest::compares);
  }

  @Test
  void comparesTheRowsOfAnImportWithEachOther() {
    TestStream stream = stream("other");
    titrated(stream, 1, "0.01", null, USUAL);
    String rows =
        String.join(
            "\n",
            List.of(row(4, "0.1"), row(2, "0.01"), row(3, "0.1"), row(5, "0.1"), row(6, "0.01")));
    JsonNode answer =
        json(
            200,
            given()
                .contentType("application/x-ndjson")
                .body(rows.getBytes(UTF_8))
                .post("/api/v1" + stream.path + "/imports"));
    List<Boolean> compared = new ArrayList<>();
    json(200, get(stream.path + "/results"))
        .get("items")
        .forEach(
            each -> compared.add(cautions(each).stream().anyMatch(OddTitrationTest::compares)));

    assertThat(answer.get("accepted").asInt()).isEqualTo(5);
    assertThat(compared).containsExactly(false, false, true, false, false, true);
  }

  /**
   * AOCS Cc 17-95, EN 14104, AOCS Ca 5a-40 (from memory); half the weakest to twice the strongest.
   */
  @ParameterizedTest
  @CsvSource({
    "soap, mg/kg, after-wash, 0.021, true",
    "soap, mg/kg, after-wash, 0.02, false",
    "soap, mg/kg, crude, 0.1, false",
    "soap, mg/kg, crude, 0.21, true",
    "soap, mg/kg, crude, 0.0049, true",
    "acid-number, mg/g, other, 0.01, true",
    "acid-number, mg/g, other, 0.1, false",
    "free-fatty-acid, %, other, 0.25, false",
    "free-fatty-acid, %, other, 0.01, true"
  })
  void saysWhereTheTitrantIsUnusual(
      String measurand, String unit, String point, String normality, boolean isSaid) {
    String replicate = "{\"titrantMl\": 0.1, \"sampleG\": 40}";
    List<String> cautions =
        cautions(titrated(stream(point, measurand, unit), 1, normality, null, replicate));

    assertThat(cautions.stream().anyMatch(each -> each.startsWith("A titrant of")))
        .isEqualTo(isSaid);
  }

  @ParameterizedTest
  @CsvSource({"0.0004, 422", "0.0005, 201", "2, 201", "2.1, 422", "10, 422"})
  void refusesATitrantThatNobodyTitratesWith(String normality, int status) {
    JsonNode answer =
        json(status, post(stream("other").path + "/titrations", body(1, normality, null, USUAL)));

    if (status == 422) {
      assertThat(answer.at("/errors/0/pointer").asText()).isEqualTo("#/titrant/normality");
      assertThat(answer.get("detail").asText()).contains("0.0005 to 2 mol/L");
    }
  }

  @ParameterizedTest
  @CsvSource({
    "soap, mg/kg, 0.9, true",
    "soap, mg/kg, 1, false",
    "soap, mg/kg, 201, true",
    "acid-number, mg/g, 51, true",
    "acid-number, mg/g, 0.5, false",
    "free-fatty-acid, %, 61, true",
    "free-fatty-acid, %, 7.05, false"
  })
  void saysWhereTheTestPortionIsUnusual(
      String measurand, String unit, double sampleG, boolean isSaid) {
    List<String> cautions =
        cautions(
            titrated(
                stream("other", measurand, unit),
                1,
                "0.1",
                null,
                "{\"titrantMl\": 0.1, \"sampleG\": %s}".formatted(sampleG)));

    assertThat(cautions.stream().anyMatch(each -> each.contains("test portion"))).isEqualTo(isSaid);
  }

  /** 5 mg/kg is 41.0 mg/kg of potassium and 66.2 mg/kg of sodium oleate (computed). */
  @ParameterizedTest
  @CsvSource({"41.0, true", "41.19, true", "41.3, false", "66.2, false"})
  void explainsALimitThatIsMeantForTheOtherMetal(double upper, boolean isSaid) {
    TestStream stream =
        TestStream.with(
            """
            {"name": "Fuel", "samplingPoint": "storage", "measurand": "soap", "unit": "mg/kg",
             "specification": {"upper": %s}}
            """
                .formatted(upper));
    String sentence = "holds 5 mg/kg of sodium at 66.21 mg/kg";

    assertThat(cautions(titrated(stream, 1, "0.01", null, USUAL)).toString().contains(sentence))
        .isEqualTo(isSaid);
    assertThat(cautions(stream.record(30)).toString().contains(sentence)).isEqualTo(isSaid);
  }

  @Test
  void explainsALimitOfSodiumForPotassiumSoap() {
    String body =
        "{\"alkali\": \"potassium\", \"titrant\": {\"normality\": 0.01}, \"replicates\": [%s], \"specification\": {\"upper\": 66.2}}";

    assertThat(cautions(json(200, post("/calculations/soap", body.formatted(USUAL)))).get(0))
        .isEqualTo(
            "The limit of 66.2 mg/kg is the sodium oleate that holds 5 mg/kg of sodium; the potassium oleate found here holds 5 mg/kg of potassium at 40.99 mg/kg: check which was meant.");
  }

  /** 100 * 304.450 / 39.997 = 761.2 (computed). */
  @ParameterizedTest
  @CsvSource({"crude, true", "after-wash, true", "after-dry-wash, false", "storage, false"})
  void saysThatFreeAlkaliCountsAsSoap(String point, boolean isSaid) {
    String sentence =
        "Free alkali was not titrated and counts as soap: 100 mg/kg of NaOH reads as 761 mg/kg of sodium oleate.";
    String looked = USUAL.replace("}", ", \"freeAlkaliMl\": 0}");

    assertThat(cautions(titrated(stream(point), 1, "0.01", null, USUAL)).contains(sentence))
        .isEqualTo(isSaid);
    assertThat(cautions(titrated(stream(point), 2, "0.01", null, looked))).doesNotContain(sentence);
  }

  @Test
  void saysTheMostSeriousFirst() {
    TestStream stream = stream("crude");
    titrated(stream, 1, "0.01", null, USUAL);
    String replicate = "{\"titrantMl\": 0.05, \"sampleG\": 0.5}";

    assertThat(cautions(titrated(stream, 2, "0.1", "burette-10ml", replicate)))
        .satisfiesExactly(
            each -> assertThat(each).startsWith("The normality is 0.1 mol/L"),
            each -> assertThat(each).startsWith("A test portion of 0.5 g"),
            each -> assertThat(each).startsWith("Free alkali"),
            each -> assertThat(each).startsWith("0.05 mL is less than 30 %"),
            each -> assertThat(each).startsWith("Below detection"),
            each -> assertThat(each).startsWith("No uncertainty of the titrant"),
            each -> assertThat(each).startsWith("The titrant was taken as aqueous"),
            each -> assertThat(each).startsWith("No balance"));
  }

  private static boolean compares(String caution) {
    return caution.contains("in the titration before");
  }

  private static TestStream stream(String point) {
    return stream(point, "soap", "mg/kg");
  }

  private static TestStream stream(String point, String measurand, String unit) {
    return TestStream.with(
        """
        {"name": "Fuel", "samplingPoint": "%s", "measurand": "%s", "unit": "%s"}
        """
            .formatted(point, measurand, unit));
  }

  private static JsonNode titrated(
      TestStream stream, int day, String normality, String glassware, String replicates) {
    String body = body(day, normality, glassware, replicates);
    return json(201, post(stream.path + "/titrations", body));
  }

  private static String row(int day, String normality) {
    return body(day, normality, null, USUAL).replace("\n", " ");
  }

  private static String body(int day, String normality, String glassware, String replicates) {
    String piece = glassware == null ? "" : "\"glassware\": \"%s\", ".formatted(glassware);
    return TITRATION.formatted(day, normality, piece, replicates);
  }

  private static List<String> cautions(JsonNode answer) {
    List<String> cautions = new ArrayList<>();
    answer.get("cautions").forEach(each -> cautions.add(each.asText()));
    return cautions;
  }
}
