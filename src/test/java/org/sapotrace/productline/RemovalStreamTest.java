package org.sapotrace.productline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.put;
import static org.sapotrace.testing.Wash.at;
import static org.sapotrace.testing.Wash.correct;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/**
 * Removals of 10 : 1 are ln 10 = 2.302585, of 20 : 1 2.995732, of 5 : 1 1.609438 (from a table).
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalStreamTest {

  private static final String REMOVAL =
      """
      {"name": "%s", "samplingPoint": "%s", "measurand": "%s", "unit": "%s"%s}
      """;

  private static String pointer(JsonNode problem) {
    return problem.at("/errors/0/pointer").asText();
  }

  private static String removal(String further) {
    return REMOVAL.formatted("What the wash takes", "after-wash", "removal", "1", further);
  }

  @Test
  void isKeptForAStreamWithAnInlet() {
    Wash wash = Wash.watched();
    JsonNode outlet = json(200, get(wash.path + "washed"));
    JsonNode kept = json(200, get(wash.path + "washed-removal"));

    assertThat(outlet.get("inlet").asText()).isEqualTo("crude");
    assertThat(outlet.get("outlet").isNull()).isTrue();
    assertThat(kept.get("name").asText()).isEqualTo("Removal: Washed fuel");
    assertThat(kept.get("samplingPoint").asText()).isEqualTo("after-wash");
    assertThat(kept.get("measurand").asText()).isEqualTo("removal");
    assertThat(kept.get("unit").asText()).isEqualTo("1");
    assertThat(kept.get("specification").isNull()).isTrue();
    assertThat(kept.get("inlet").asText()).isEqualTo("crude");
    assertThat(kept.get("outlet").asText()).isEqualTo("washed");
    assertThat(json(200, get("/lines/%s/streams".formatted(wash.line))).get("items"))
        .extracting(stream -> stream.get("stream").asText())
        .containsExactly("crude", "washed", "washed-removal");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "washed | washed | not its own inlet",
        "washed | nowhere | no stream nowhere",
        "washed | acid | acid number",
        "crude | washed | lies behind this one already",
        "crude | polished | lies behind this one already",
        "a234567890123456789012345678901234567890123456789012345x | crude | shorter name"
      })
  void refusesWhatCannotBeAnInlet(String stream, String inlet, String why) {
    Wash wash = Wash.watched();
    json(201, wash.watch("polished", "washed"));
    json(
        201,
        put(
            wash.path + "acid",
            REMOVAL.formatted("Acid number", "storage", "acid-number", "mg/g", "")));
    String before = get("/lines/%s/streams".formatted(wash.line)).asString();
    JsonNode problem =
        json(
            422,
            put(
                wash.path + stream,
                REMOVAL.formatted(
                    "Fuel",
                    stream.equals("crude") ? "crude" : "after-wash",
                    "soap",
                    "mg/kg",
                    ", \"inlet\": \"%s\"".formatted(inlet))));

    assertThat(pointer(problem)).isEqualTo("#/inlet");
    assertThat(problem.get("detail").asText()).contains(why);
    assertThat(get("/lines/%s/streams".formatted(wash.line)).asString()).isEqualTo(before);
  }

  @Test
  void takesTheLongestNameThatLeavesRoomForItsOwn() {
    Wash wash = Wash.unwatched();
    String longest = "a".repeat(63 - "-removal".length());

    json(201, wash.watch(longest, "crude"));
    json(200, get(wash.path + longest + "-removal"));
  }

  @Test
  void isOfSoapAlone() {
    Wash wash = Wash.unwatched();
    JsonNode problem =
        json(
            422,
            put(
                wash.path + "acid",
                REMOVAL.formatted(
                    "Acid", "storage", "acid-number", "mg/g", ", \"inlet\": \"crude\"")));

    assertThat(pointer(problem)).isEqualTo("#/inlet");
  }

  @Test
  void isNeitherDefinedByHandNorUnderATakenName() {
    Wash wash = Wash.unwatched();
    assertThat(json(409, put(wash.path + "washed-removal", removal(""))).get("detail").asText())
        .contains("put that stream with its inlet");
    json(
        201,
        put(
            wash.path + "washed-removal",
            REMOVAL.formatted("Soap after removal", "other", "soap", "mg/kg", "")));
    JsonNode problem = json(409, wash.watch("washed", "crude"));

    assertThat(problem.get("detail").asText()).contains("under another name");
    assertThat(json(200, get(wash.path + "washed")).get("inlet").isNull()).isTrue();
    // Where nothing would be kept under its name, it may stay.
    json(200, wash.watch("washed", null));
  }

  @Test
  void letsItsChartBeSetAndNothingElse() {
    Wash wash = Wash.watched();
    String path = wash.path + "washed-removal";
    JsonNode set =
        json(200, put(path, removal(", \"chart\": {\"rules\": \"nelson-1984\", \"ewma\": null}")));

    assertThat(set.at("/chart/rules")).hasSize(8);
    assertThat(set.get("inlet").asText()).isEqualTo("crude");
    json(409, put(path, REMOVAL.formatted("Other", "after-wash", "other", "1", "")));
    json(409, put(path, REMOVAL.formatted("Soap", "after-wash", "soap", "mg/kg", "")));
    json(200, put(path, removal(", \"inlet\": \"crude\"")));
    assertThat(pointer(json(422, put(path, removal(", \"inlet\": \"washed\"")))))
        .isEqualTo("#/inlet");
    // The outlet put again leaves it as it is.
    json(200, wash.watch("washed", "crude"));
    assertThat(json(200, get(path)).get("name").asText()).isEqualTo("What the wash takes");
  }

  @Test
  void followsTheNameOfItsOutletUntilItHasItsOwn() {
    Wash wash = Wash.watched();
    String renamed =
        REMOVAL.formatted(
            "Behind the mixer", "after-wash", "soap", "mg/kg", ", \"inlet\": \"crude\"");
    json(200, put(wash.path + "washed", renamed));

    assertThat(json(200, get(wash.path + "washed-removal")).get("name").asText())
        .isEqualTo("Removal: Behind the mixer");
  }

  @Test
  void hasAllBatchesOnRecordWhenAnInletIsPut() {
    Wash wash = Wash.unwatched();
    wash.record("washed", "K-2", 5, 50);
    wash.record("washed", "K-1", 2, 50);
    wash.record("crude", "K-1", 0, 500);
    wash.record("crude", "K-2", 3, 1000);
    wash.record("crude", "K-3", 6, 1000);
    json(200, wash.watch("washed", "crude"));

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(2), "K-2 2.995732 " + at(5));
  }

  @Test
  void hasItsInletFromTheFirstWhereTheStreamIsNew() {
    Wash wash = Wash.unwatched();
    json(201, wash.watch("polished", "crude"));

    assertThat(json(200, get(wash.path + "polished-removal")).get("inlet").asText())
        .isEqualTo("crude");
  }

  @Test
  void staysAsItIsWithoutTheInletAndCatchesUpWithIt() {
    Wash wash = Wash.watched();
    JsonNode inlet = wash.record("crude", "K-1", 0, 500);
    wash.record("washed", "K-1", 1, 50);
    json(200, wash.watch("washed", null));
    wash.record("crude", "K-2", 2, 500);
    wash.record("washed", "K-2", 3, 50);
    correct(inlet, "\"values\": [1000]");

    assertThat(wash.removals()).containsExactly("K-1 2.302585 " + at(1));
    assertThat(json(200, get(wash.path + "washed-removal")).get("inlet").isNull()).isTrue();
    json(200, wash.watch("washed", "crude"));
    assertThat(wash.removals()).containsExactly("K-1 2.995732 " + at(1), "K-2 2.302585 " + at(3));
    assertThat(wash.removal(1).at("/revisions/1/reason").asText())
        .isEqualTo("stream washed was given the inlet crude");
  }

  @Test
  void isDerivedAnewFromAnotherInlet() {
    Wash wash = Wash.watched();
    json(201, wash.watch("settled", null));
    wash.record("crude", "K-1", 0, 1000);
    wash.record("settled", "K-1", 1, 250);
    wash.record("washed", "K-1", 2, 50);
    wash.record("crude", "K-2", 3, 500);
    wash.record("washed", "K-2", 4, 50);
    String without = wash.removal(2).get("id").asText();
    json(200, wash.watch("washed", "settled"));

    assertThat(wash.removals()).containsExactly("K-1 1.609438 " + at(2));
    assertThat(json(200, get("/results/" + without)).get("withdrawn").asBoolean()).isTrue();
    wash.record("crude", "K-3", 5, 500);
    wash.record("washed", "K-3", 6, 50);
    assertThat(wash.removals()).hasSize(1);
  }
}
