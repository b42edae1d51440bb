package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.Locale;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** A plant whose truth is known: what moved is found behind the signal that it raised. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class AttributionOfSignalTest {

  private static final int QUIET = 30;
  private static final int MOVED = 12;
  // c M 1000 of 0.01 mol/L and sodium oleate, in mg/kg for each mL on each g.
  private static final double K = 0.01 * 304.45 * 1000;
  private static final String TITRATED =
      """
      {"batch": "K-%d", "sampledAt": "%s", "titrant": {"lot": "%s"}, "blankMl": 0,
       "glassware": "burette-25ml",
       "replicates": [{"titrantMl": %s, "sampleG": %s}]}
      """;

  private final SplittableRandom random = new SplittableRandom(4);

  @Test
  void isTheWashWhereItsRemovalFallsAlone() {
    Wash wash = Wash.watched();
    batches(wash, 1, 0.65);

    JsonNode answer = attribution(signal(wash, "washed-removal"));
    assertThat(answer.get("cause").asText()).isEqualTo("wash");
    assertThat(answer.get("unit").asText()).isEqualTo("1");
    assertThat(answer.get("shift").asDouble()).isCloseTo(Math.log(0.65), within(0.08));
    assertThat(answer.at("/parts/0/cause").asText()).isEqualTo("wash");
    assertThat(answer.at("/parts/0/estimate").asDouble()).isNegative();
    assertThat(answer.at("/change/shape").asText()).isEqualTo("step");
    assertThat(answer.at("/change/since").asText()).isEqualTo(Wash.at(2 * QUIET - 1).toString());
    assertThat(answer.get("wanted").isNull()).isTrue();
    assertThat(answer.get("reason").asText()).startsWith("The wash explains ");

    JsonNode outlet = attribution(signal(wash, "washed"));
    assertThat(outlet.get("cause").asText()).isEqualTo("wash");
    assertThat(outlet.get("unit").asText()).isEqualTo("mg/kg");
    // From 40 to 40/0.65 mg/kg.
    assertThat(outlet.get("shift").asDouble()).isCloseTo(40 / 0.65 - 40, within(5.0));
    assertThat(shares(outlet)).isCloseTo(1, within(1e-9));
    assertThat(parts(outlet)).isCloseTo(outlet.get("shift").asDouble(), within(4.0));
  }

  @Test
  void isTheFeedWhereTheCrudeRisesAndTheRemovalStays() {
    Wash wash = Wash.watched();
    checked(wash);
    batches(wash, 1.5, 1);
    JsonNode answer = attribution(signal(wash, "crude"));
    assertThat(answer.get("cause").asText()).isIn("feed", "undecided");
    assertThat(answer.at("/parts/0/cause").asText()).isEqualTo("feed");
    assertThat(answer.at("/parts/0/share").asDouble()).isGreaterThan(0.8);
  }

  /** A check standard that reads high like everything else, and a standardisation that says so. */
  @Test
  void isTheTitrantWhereEverythingMovesByOneRatio() {
    Wash wash = Wash.watched();
    checked(wash);
    String lot = wash.line + "-hcl";
    json(
        201,
        put(
            "/titrants/" + lot,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    standardise(lot, 0.01, 0);
    for (int i = 0; i < QUIET + MOVED; i++) {
      double weaker = i < QUIET ? 1 : 1.2;
      titrate(wash, "crude", i, lot, 1200 * scatter(0.05) * weaker, 10);
      titrate(wash, "washed", i, lot, 40 * scatter(0.08) * weaker, 100);
      titrate(wash, "check", i, lot, 100 * scatter(0.02) * weaker, 50);
      if (i == QUIET - 1) {
        adopt(wash);
      }
    }
    // Check standards alone leave it to titrant or blank; the standardisation tells.
    JsonNode open = attribution(signal(wash, "crude"));
    assertThat(open.get("cause").asText()).isEqualTo("undecided");
    assertThat(open.get("wanted").isNull()).isFalse();
    standardise(lot, 0.01 / 1.2, 2 * (QUIET + MOVED));
    JsonNode answer = attribution(signal(wash, "crude"));
    assertThat(answer.get("cause").asText()).isEqualTo("titrant");
    assertThat(answer.at("/parts/0/estimate").asDouble()).isCloseTo(240, within(60.0));
  }

  @Test
  void isUndecidedWithoutTheCrudeAndWantsIt() {
    Wash wash = Wash.unwatched();
    for (int i = 0; i < QUIET + MOVED; i++) {
      wash.record("washed", "K-" + i, 2 * i, 40 * scatter(0.08) * (i < QUIET ? 1 : 1.6));
      if (i == QUIET - 1) {
        json(201, post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 30}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).isEqualTo("undecided");
    assertThat(answer.get("wanted").asText())
        .isEqualTo("Titrate the fuel before the wash or tower, of the next three batches.");
  }

  @Test
  void isUndecidedWithTooLittleBeforeTheChange() {
    Wash wash = Wash.unwatched();
    json(201, post(wash.path + "washed/limits", "{\"given\": {\"centre\": 40, \"sigma\": 3}}"));
    wash.record("washed", "K-1", 0, 40);
    wash.record("washed", "K-2", 2, 70);
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).isEqualTo("undecided");
    assertThat(answer.get("shift").isNull()).isTrue();
    assertThat(answer.get("parts")).isEmpty();
    assertThat(answer.get("reason").asText()).contains("Fewer than 5 results");
  }

  @Test
  void isOfSoapOnly() {
    TestStream flow = TestStream.other("[\"beyond-limits\"]");
    flow.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");
    String signal = flow.record(5).at("/control/signals/0/id").asText();
    JsonNode problem = json(409, get("/signals/" + signal + "/attribution"));
    assertThat(problem.get("detail").asText()).contains("stream watched is of other");
    json(404, get("/signals/01a2123c-2145-7a1a-b44e-707d7cfa3c77/attribution"));
  }

  private void batches(Wash wash, double feed, double removed) {
    for (int i = 0; i < QUIET + MOVED; i++) {
      double richer = i < QUIET ? 1 : feed;
      double less = i < QUIET ? 1 : removed;
      double crude = 1200 * scatter(0.05) * richer;
      wash.record("crude", "K-" + i, 2 * i, crude);
      wash.record("washed", "K-" + i, 2 * i + 1, crude / 30 / less * scatter(0.05));
      if (i == QUIET - 1) {
        adopt(wash);
      }
    }
  }

  /** From the first results of crude and washed fuel, and with it of the removal. */
  private static void adopt(Wash wash) {
    for (String stream : List.of("crude", "washed")) {
      json(201, post(wash.path + stream + "/limits", "{\"baseline\": {\"first\": 30}}"));
    }
  }

  private static void checked(Wash wash) {
    json(
        201,
        put(
            wash.path + "check",
            "{\"name\": \"Check\", \"samplingPoint\": \"check-standard\", \"measurand\": \"soap\", \"unit\": \"mg/kg\"}"));
  }

  private static void titrate(
      Wash wash, String stream, int i, String lot, double soap, double sampleG) {
    json(
        201,
        post(
            wash.path + stream + "/titrations",
            String.format(
                Locale.ROOT,
                TITRATED,
                i,
                Wash.at(2 * i + (stream.equals("crude") ? 0 : 1)),
                lot,
                soap * sampleG / K,
                sampleG)));
  }

  // c = 1000 m / (E V) with 10 mL of 0.53 g in 1000 mL and E = 52.994 g/mol.
  private static void standardise(String lot, double normality, int hour) {
    json(
        201,
        post(
            "/titrants/" + lot + "/standardisations",
            """
            {"standard": "sodium-carbonate", "performedAt": "%s",
             "replicates": [{"solution": {"standardG": 0.53, "volumeMl": 1000}, "aliquotMl": 10,
                             "titrantMl": %s}]}
            """
                .formatted(Wash.at(hour).minusSeconds(60), 1000 * 0.0053 / (52.994 * normality))));
  }

  private double scatter(double relative) {
    return Math.exp(relative * random.nextGaussian());
  }

  /** The latest signal of a stream. */
  private static String signal(Wash wash, String stream) {
    JsonNode signals =
        json(200, get("/signals?line=%s&stream=%s&limit=1000".formatted(wash.line, stream)))
            .get("items");
    assertThat(signals).as("signals of " + stream).isNotEmpty();
    return signals.get(signals.size() - 1).get("id").asText();
  }

  private static JsonNode attribution(String signal) {
    return json(200, get("/signals/" + signal + "/attribution"));
  }

  private static double shares(JsonNode answer) {
    return sum(answer, "share");
  }

  private static double parts(JsonNode answer) {
    return sum(answer, "estimate");
  }

  private static double sum(JsonNode answer, String field) {
    double sum = 0;
    for (JsonNode part : answer.get("parts")) {
      sum += part.get(field).asDouble();
    }
    return sum;
  }
}
