package org.sapotrace.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.forecast.Attributed.MOVED;
import static org.sapotrace.forecast.Attributed.QUIET;
import static org.sapotrace.forecast.Attributed.adopt;
import static org.sapotrace.forecast.Attributed.attribution;
import static org.sapotrace.forecast.Attributed.checked;
import static org.sapotrace.forecast.Attributed.firstSignal;
import static org.sapotrace.forecast.Attributed.partOf;
import static org.sapotrace.forecast.Attributed.parts;
import static org.sapotrace.forecast.Attributed.shares;
import static org.sapotrace.forecast.Attributed.signal;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** A plant whose truth is known: what moved is found behind the signal that it raised. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class AttributionOfSignalTest {

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

  /** Crude of three batches does not tell how crude scatters. */
  @Test
  void isUndecidedWhereTheInletWasHardlyTitrated() {
    Wash wash = Wash.watched();
    for (int i = 0; i < QUIET + MOVED; i++) {
      if (i % 14 == 13) {
        wash.record("crude", "K-" + i, 2 * i, 1200 * scatter(0.05));
      }
      wash.record("washed", "K-" + i, 2 * i + 1, (i < QUIET ? 40 : 65) * scatter(0.05));
      if (i == QUIET - 1) {
        json(201, post(wash.path + "washed/limits", "{\"baseline\": {\"first\": 30}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "washed"));
    assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("undecided");
    assertThat(answer.get("shift").asDouble()).isCloseTo(25, within(4.0));
    assertThat(shares(answer)).isCloseTo(1, within(1e-9));
  }

  /** Somebody else takes the logarithms: they are on the scale already, and may be below 0. */
  @Test
  void looksAtRemovalsThatWereFoundElsewhereAsTheyAre() {
    Wash wash = Wash.unwatched();
    json(
        201,
        put(
            wash.path + "taken-off",
            "{\"name\": \"Taken off\", \"samplingPoint\": \"after-wash\", \"measurand\": \"removal\", \"unit\": \"1\"}"));
    for (int i = 0; i < QUIET + MOVED; i++) {
      wash.record("crude", "K-" + i, 2 * i, 1200 * scatter(0.05));
      double removed = (i < QUIET ? 3.4 : 2.9) + 0.05 * random.nextGaussian();
      wash.record("taken-off", "K-" + i, 2 * i + 1, removed);
      if (i == QUIET - 1) {
        json(201, post(wash.path + "taken-off/limits", "{\"baseline\": {\"first\": 30}}"));
      }
    }
    JsonNode answer = attribution(signal(wash, "taken-off"));
    assertThat(answer.get("cause").asText()).as(answer.toPrettyString()).isEqualTo("wash");
    assertThat(answer.get("shift").asDouble()).isCloseTo(-0.5, within(0.05));
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

  private double scatter(double relative) {
    return Math.exp(relative * random.nextGaussian());
  }
}
