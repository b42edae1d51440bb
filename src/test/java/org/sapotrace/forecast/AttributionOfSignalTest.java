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
      {"batch": "K-%d", "sampledAt": "%s", "titrant": {"lot": "%s"}, "blankMl": %s,
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
    String lot = declared(wash.line + "-hcl");
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
  void isUndecidedWithoutTheCrudeAndWantsNothingThatCouldNotTell() {
    Wash wash = Wash.unwatched();
    for (int i = 0; i < QUIET + MOVED; i++) {
      wash.record("washed", "K-" + i, 2 * i, 40 * scatter(0.08) * (i < QUIET ? 1 : 1.6));
      if (i == QUIET - 1) {
        json(201, post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 30}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).isEqualTo("undecided");
    // Crude that nobody titrated before the change does not tell how it changed.
    assertThat(answer.get("wanted").isNull()).isTrue();
    assertThat(answer.get("reason").asText())
        .endsWith("No titration that could be made now would decide it.");
  }

  /** What stood for the titrant while it was wrong is not watered down by what came later. */
  @Test
  void isTheSameAfterTheFaultWasPutRight() {
    Wash wash = Wash.watched();
    checked(wash);
    for (int i = 0; i < QUIET + 3 * MOVED; i++) {
      double high = i >= QUIET && i < QUIET + MOVED ? 1.5 : 1;
      double crude = 1200 * scatter(0.05) * high;
      wash.record("crude", "K-" + i, 2 * i, crude);
      wash.record("washed", "K-" + i, 2 * i + 1, crude / 30 * scatter(0.05));
      wash.record("check", "K-" + i, 2 * i, 100 * scatter(0.02) * high);
      if (i == QUIET - 1) {
        adopt(wash);
      }
    }
    JsonNode answer = attribution(firstSignal(wash, "crude"));
    assertThat(answer.at("/parts/0/cause").asText()).isIn("titrant", "blank");
    assertThat(answer.get("shift").asDouble()).isCloseTo(600, within(120.0));
    assertThat(partOf(answer, "feed")).isCloseTo(0, within(150.0));
    assertThat(answer.get("wanted").isNull()).isTrue();
  }

  @Test
  void looksNotBehindAnEarlierPhase() {
    Wash wash = Wash.watched();
    batchesAt(wash, 0, 20, 1200, 1);
    json(
        201,
        post(
            "/lines/" + wash.line + "/events",
            "{\"kind\": \"feed-change\", \"at\": \"%s\", \"note\": \"waste oil\", \"newPhase\": true}"
                .formatted(Wash.at(40))));
    batchesAt(wash, 21, 51, 2500, 1);
    for (String stream : List.of("crude", "washed")) {
      json(
          201,
          post(
              wash.path + stream + "/limits",
              "{\"baseline\": {\"from\": \"%s\", \"to\": \"%s\"}}"
                  .formatted(Wash.at(41), Wash.at(102))));
    }
    batchesAt(wash, 51, 63, 2500, 0.65);
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("wash");
    assertThat(answer.at("/change/since").asText()).isEqualTo(Wash.at(101).toString());
  }

  /** The crude is no longer titrated: what signals is looked at by itself. */
  @Test
  void isUndecidedWhereTheInletIsNotTitratedAnyMore() {
    Wash wash = Wash.watched();
    batchesAt(wash, 0, QUIET, 1200, 1);
    adopt(wash);
    for (int i = QUIET; i < QUIET + MOVED; i++) {
      wash.record("washed", "K-" + i, 2 * i + 1, 65 * scatter(0.05));
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).isEqualTo("undecided");
    assertThat(answer.get("shift").asDouble()).isCloseTo(25, within(4.0));
    assertThat(shares(answer)).isCloseTo(1, within(1e-9));
    assertThat(parts(answer)).isCloseTo(answer.get("shift").asDouble(), within(4.0));
  }

  @Test
  void answersForARemovalWhoseInletWasTakenAway() {
    Wash wash = Wash.watched();
    batches(wash, 1, 0.65);
    String signal = signal(wash, "washed-removal");
    json(200, wash.watch("washed", null));
    JsonNode answer = attribution(signal);
    assertThat(answer.get("cause").asText()).isEqualTo("wash");
    assertThat(answer.get("shift").asDouble()).isCloseTo(Math.log(0.65), within(0.08));
  }

  /** A lot that lost strength, and was used for what it was found to be, is behind nothing. */
  @Test
  void takesAStandardisedLotForWhatItIsUsedAs() {
    Wash wash = Wash.watched();
    String lot = declared(wash.line + "-hcl");
    standardise(lot, 0.009, 2);
    for (int i = 1; i < QUIET + MOVED; i++) {
      double richer = i < QUIET ? 1 : 1.5;
      double crude = 1200 * scatter(0.05) * richer;
      // The weaker the titrant, the more of it is taken.
      titrate(wash, "crude", i, lot, crude / 0.9, 10);
      titrate(wash, "washed", i, lot, crude / 30 / 0.9 * scatter(0.05), 100);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    standardise(lot, 0.009, 2 * (QUIET + MOVED));
    JsonNode answer = attribution(signal(wash, "crude"));
    assertThat(answer.at("/parts/0/cause").asText()).isEqualTo("feed");
    assertThat(Math.abs(partOf(answer, "titrant"))).isLessThan(40);
  }

  /** The washed fuel's own lot weakens, and the wash, which works as before, seems to fail. */
  @Test
  void tellsTheLotOfTheWashedFuelFromItsWash() {
    Wash wash = Wash.watched();
    String ofCrude = declared(wash.line + "-strong");
    String ofWashed = declared(wash.line + "-dilute");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double crude = 1200 * scatter(0.05);
      titrate(wash, "crude", i, ofCrude, crude, 10);
      double weaker = i < QUIET ? 1 : 1.5;
      titrate(wash, "washed", i, ofWashed, crude / 30 * scatter(0.05) * weaker, 100);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    // By these batches alone it may be the wash as well.
    JsonNode open = attribution(signal(wash, "washed-removal"));
    assertThat(open.get("cause").asText()).as(open.toPrettyString()).isEqualTo("undecided");
    assertThat(open.get("wanted").asText())
        .isEqualTo("Standardise titrant lot %s, three replicates.".formatted(ofWashed));
    standardise(ofCrude, 0.01, 2 * (QUIET + MOVED));
    standardise(ofWashed, 0.01 / 1.5, 2 * (QUIET + MOVED));
    for (String stream : List.of("washed-removal", "washed")) {
      JsonNode answer = attribution(signal(wash, stream));
      assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("titrant");
    }
  }

  /** Streams of other lines that have no inlet share lot and solvent. */
  @Test
  void takesWhatMovesElsewhereOnTheLotForWhatTheyShare() {
    assertThat(shareOfTitrantAndBlank(1.3)).isGreaterThan(0.8);
    assertThat(shareOfTitrantAndBlank(1)).isLessThan(0.2);
  }

  private double shareOfTitrantAndBlank(double othersMove) {
    Wash wash = Wash.unwatched();
    List<Wash> others = List.of(Wash.unwatched(), Wash.unwatched());
    String lot = declared(wash.line + "-hcl");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double higher = i < QUIET ? 1 : 1.3;
      titrate(wash, "washed", i, lot, 40 * scatter(0.08) * higher, 100);
      for (Wash other : others) {
        double moved = i < QUIET ? 1 : othersMove;
        titrate(other, "washed", i, lot, 50 * scatter(0.08) * moved, 100);
      }
      if (i == QUIET - 1) {
        json(201, post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 29}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    double shared = partOf(answer, "titrant") + partOf(answer, "blank");
    return shared / answer.get("shift").asDouble();
  }

  /** A blank that shifts, and is taken off, is behind nothing. */
  @Test
  void takesABlankThatIsTakenOffForNoCause() {
    Wash wash = Wash.watched();
    checked(wash);
    json(
        201,
        put(
            wash.path + "blank",
            "{\"name\": \"Blank\", \"samplingPoint\": \"blank\", \"measurand\": \"other\", \"unit\": \"mL\"}"));
    String lot = declared(wash.line + "-hcl");
    for (int i = 1; i < QUIET + MOVED; i++) {
      double blank = i < QUIET ? 0.1 : 0.6;
      double crude = 1200 * scatter(0.05);
      double kept = i < QUIET ? 1 : 1.5;
      wash.record("blank", "K-" + i, 2 * i, blank + 0.01 * random.nextGaussian());
      titrate(wash, "crude", i, lot, crude, 10, blank);
      titrate(wash, "washed", i, lot, crude / 30 * kept * scatter(0.05), 100, blank);
      if (i == QUIET - 1) {
        adopt(wash, 29);
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("wash");
    assertThat(partOf(answer, "blank")).isCloseTo(0, within(2.0));
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

  private void batchesAt(Wash wash, int first, int end, double crudeLevel, double removed) {
    for (int i = first; i < end; i++) {
      double crude = crudeLevel * scatter(0.05);
      wash.record("crude", "K-" + i, 2 * i, crude);
      wash.record("washed", "K-" + i, 2 * i + 1, crude / 30 / removed * scatter(0.05));
    }
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
    adopt(wash, QUIET);
  }

  private static void adopt(Wash wash, int first) {
    for (String stream : List.of("crude", "washed")) {
      json(
          201,
          post(wash.path + stream + "/limits", "{\"baseline\": {\"first\": %d}}".formatted(first)));
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
    titrate(wash, stream, i, lot, soap, sampleG, 0);
  }

  /** A titration that takes off a blank which was there. */
  private static void titrate(
      Wash wash, String stream, int i, String lot, double soap, double sampleG, double blankMl) {
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
                blankMl,
                blankMl + soap * sampleG / K,
                sampleG)));
  }

  private static String declared(String lot) {
    json(
        201,
        put(
            "/titrants/" + lot,
            "{\"reagent\": \"hydrochloric-acid\", \"nominalNormality\": 0.01}"));
    standardise(lot, 0.01, 0);
    return lot;
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

  /** The first signal of a stream that goes on for several results. */
  private static String firstSignal(Wash wash, String stream) {
    for (JsonNode signal :
        json(200, get("/signals?line=%s&stream=%s&limit=1000".formatted(wash.line, stream)))
            .get("items")) {
      if (signal.get("count").asInt() > MOVED / 2) {
        return signal.get("id").asText();
      }
    }
    throw new AssertionError("no signal of " + stream);
  }

  /** The part of a cause. */
  private static double partOf(JsonNode answer, String cause) {
    for (JsonNode part : answer.get("parts")) {
      if (part.get("cause").asText().equals(cause)) {
        return part.get("estimate").asDouble();
      }
    }
    throw new AssertionError("no part of " + cause);
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
