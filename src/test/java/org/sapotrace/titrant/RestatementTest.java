package org.sapotrace.titrant;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class RestatementTest {

  private static final String SOME_REASON = "{\"reason\": \"bottle left open\"}";

  /** Of 100 g, 1 mL of 0.01 mol/L is 30.445 mg/kg of sodium oleate: 0.01 x 304.45 x 1000 / 100. */
  private static final double MG_PER_KG_PER_ML = 30.445;

  /** A lot that was standardised at 0.01 mol/L on 1 March and at 0.011 mol/L on 11 March. */
  private static TestLot risenByATenth() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    lot.standardised(0.01, "2026-03-01T00:00:00Z");
    return lot;
  }

  private static JsonNode titrate(TestStream stream, TestLot lot, double ml, String sampledAt) {
    return json(201, post(stream.path + "/titrations", titration(lot, ml, sampledAt)));
  }

  private static String titration(TestLot lot, double ml, String sampledAt) {
    return """
        {"batch": "K-1", "sampledAt": "%s", "titrant": {"lot": "%s"}, "blankMl": 0,
         "glassware": "measuring-pipette-5ml", "replicates": [{"titrantMl": %s, "sampleG": 100}]}
        """
        .formatted(sampledAt, lot.slug, ml);
  }

  private static JsonNode restate(TestLot lot, String body) {
    return json(201, post(lot.path + "/restatements", body));
  }

  private static double value(JsonNode result) {
    return result.at("/result/value").asDouble();
  }

  @Test
  void interpolatesBetweenTheStandardisationsOnEitherSide() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    JsonNode early = titrate(stream, lot, 2.0, "2026-02-27T00:00:00Z");
    JsonNode halfway = titrate(stream, lot, 2.0, "2026-03-06T00:00:00Z");
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    JsonNode late = titrate(stream, lot, 2.0, "2026-03-20T00:00:00Z");
    JsonNode restated = restate(lot, SOME_REASON);

    // By hand: half of ten days is half of the way from 0.01 to 0.011 mol/L.
    assertThat(value(halfway)).isCloseTo(2.0 * MG_PER_KG_PER_ML, within(1e-9));
    JsonNode again = json(200, get("/results/" + halfway.get("id").asText()));
    assertThat(value(again)).isCloseTo(2.0 * MG_PER_KG_PER_ML * 1.05, within(1e-9));
    assertThat(again.at("/titrant/interpolated").asBoolean()).isTrue();
    assertThat(again.at("/titrant/normality").asDouble()).isCloseTo(0.0105, within(1e-12));
    assertThat(again.get("revision").asInt()).isEqualTo(2);
    assertThat(again.at("/revisions/0/value").asDouble()).isEqualTo(value(halfway));
    assertThat(again.at("/revisions/1/reason").asText())
        .contains(lot.slug, "restated", "bottle left open");

    // Before the first standardisation the lot counted at its nominal normality, now by the first.
    JsonNode first = json(200, get("/results/" + early.get("id").asText()));
    assertThat(first.at("/result/standardUncertainty").asDouble())
        .isLessThan(early.at("/result/standardUncertainty").asDouble());
    // Behind the last the nearest holds, which is what it had counted by.
    assertThat(json(200, get("/results/" + late.get("id").asText())).get("revision").asInt())
        .isEqualTo(1);
    assertThat(restated.get("unchanged").asInt()).isEqualTo(1);
    assertThat(restated.get("changed")).hasSize(2);
    assertThat(restated.at("/changed/1/before/value").asDouble()).isEqualTo(value(halfway));
    assertThat(restated.at("/changed/1/after/value").asDouble()).isEqualTo(value(again));
  }

  @Test
  void namesTheVerdictsThatTurned() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    JsonNode clean = titrate(stream, lot, 1.0, "2026-03-09T00:00:00Z");
    JsonNode close = titrate(stream, lot, 2.08, "2026-03-10T00:00:00Z");
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    JsonNode restated = restate(lot, SOME_REASON);

    // 2.08 mL are 63.3 mg/kg at 0.01 mol/L and 69.0 at 0.0109; 66.2 is the limit.
    assertThat(close.at("/verdict/outcome").asText()).isEqualTo("conforming");
    assertThat(restated.get("verdictsTurned")).hasSize(1);
    assertThat(restated.at("/verdictsTurned/0")).isEqualTo(close.get("id"));
    assertThat(restated.at("/changed/0/result")).isEqualTo(clean.get("id"));
    assertThat(restated.at("/changed/0/after/outcome").asText()).isEqualTo("conforming");
    assertThat(restated.at("/changed/1/after/outcome").asText()).isNotEqualTo("conforming");
  }

  @Test
  void judgesTheChartAgainFromTheFirstThatChanged() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    stream.adopt("{\"given\": {\"centre\": 60, \"sigma\": 2}}");
    titrate(stream, lot, 2.0, "2026-03-02T00:00:00Z");
    JsonNode inside = titrate(stream, lot, 2.08, "2026-03-11T00:00:00Z");
    assertThat(inside.at("/control/signals")).isEmpty();
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    restate(lot, SOME_REASON);

    // 2.08 mL at 0.011 mol/L are 69.7 mg/kg, beyond 60 + 3 x 2.
    assertThat(stream.chart("individuals").at("/points/1/signals/0").asText())
        .isEqualTo("beyond-limits");
    assertThat(stream.liveSignals()).anyMatch(signal -> signal.startsWith("beyond-limits high"));
  }

  @Test
  void leavesResultsBeforeFromAndOfOtherLotsAlone() {
    TestLot lot = risenByATenth();
    TestLot other = risenByATenth();
    TestStream stream = TestStream.soap();
    titrate(stream, lot, 2.0, "2026-03-03T00:00:00Z");
    titrate(stream, other, 2.0, "2026-03-06T00:00:00Z");
    JsonNode since = titrate(stream, lot, 2.0, "2026-03-07T00:00:00Z");
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    other.standardised(0.011, "2026-03-11T00:00:00Z");
    JsonNode restated =
        restate(lot, "{\"from\": \"2026-03-07T00:00:00Z\", \"reason\": \"left open since\"}");

    assertThat(restated.get("changed")).hasSize(1);
    assertThat(restated.at("/changed/0/result")).isEqualTo(since.get("id"));
  }

  @Test
  void isKeptAndListed() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    titrate(stream, lot, 2.0, "2026-03-06T00:00:00Z");
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    JsonNode restated = restate(lot, SOME_REASON);
    JsonNode again = restate(lot, SOME_REASON);

    assertThat(json(200, get(lot.path + "/restatements/" + restated.get("id").asText())))
        .isEqualTo(restated);
    JsonNode page = json(200, get(lot.path + "/restatements?limit=1"));
    assertThat(page.at("/items/0")).isEqualTo(restated);
    JsonNode next =
        json(200, get(lot.path + "/restatements?limit=1&cursor=" + page.get("next").asText()));
    assertThat(next.at("/items/0")).isEqualTo(again);
    // What was restated already comes out as it is.
    assertThat(again.get("changed")).isEmpty();
    assertThat(again.get("unchanged").asInt()).isEqualTo(1);
    json(404, get(lot.path + "/restatements/" + UUID.randomUUID()));
  }

  /** Twelve pairs are enough for a repeatability of the stream's own, which the first run moves. */
  @Test
  void changesNothingWhenItIsMadeAgain() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    for (int i = 0; i < 12; i++) {
      json(
          201,
          post(
              stream.path + "/titrations",
              """
              {"batch": "K-%1$d", "sampledAt": "2026-03-02T%1$02d:00:00Z", "titrant": {"lot": "%2$s"},
               "blankMl": 0, "glassware": "measuring-pipette-5ml",
               "replicates": [{"titrantMl": 1.%1$02d, "sampleG": 100},
                              {"titrantMl": 1.2, "sampleG": 100}]}
              """
                  .formatted(i + 10, lot.slug)));
    }
    lot.standardised(0.011, "2026-03-03T00:00:00Z");

    assertThat(restate(lot, SOME_REASON).get("changed")).hasSize(12);
    JsonNode again = restate(lot, SOME_REASON);
    assertThat(again.get("changed")).isEmpty();
    assertThat(again.get("unchanged").asInt()).isEqualTo(12);
  }

  @Test
  void isNotUndoneByACorrectionOfAReading() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    String id = titrate(stream, lot, 2.0, "2026-03-06T00:00:00Z").get("id").asText();
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    restate(lot, SOME_REASON);
    JsonNode corrected =
        json(
            201,
            post(
                "/results/" + id + "/corrections",
                "{\"reason\": \"misread\", \"titration\": %s}"
                    .formatted(titration(lot, 1.0, "2026-03-06T00:00:00Z"))));

    assertThat(value(corrected)).isCloseTo(MG_PER_KG_PER_ML * 1.05, within(1e-9));
    assertThat(corrected.get("revision").asInt()).isEqualTo(3);
  }

  @Test
  void leavesAWithdrawnResultWithdrawn() {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    String id = titrate(stream, lot, 2.0, "2026-03-06T00:00:00Z").get("id").asText();
    json(201, post("/results/" + id + "/corrections", "{\"reason\": \"x\", \"withdrawn\": true}"));
    lot.standardised(0.011, "2026-03-11T00:00:00Z");

    assertThat(restate(lot, SOME_REASON).get("changed")).isEmpty();
    assertThat(json(200, get("/results/" + id)).get("withdrawn").asBoolean()).isTrue();
  }

  @Test
  void needsAStandardisationThatCounts() {
    TestLot lot = TestLot.of("hydrochloric-acid");
    json(409, post(lot.path + "/restatements", SOME_REASON));
    String id = lot.standardised(0.01, "2026-03-01T00:00:00Z").get("id").asText();
    restate(lot, SOME_REASON);
    json(201, post("/results/" + id + "/corrections", "{\"reason\": \"x\", \"withdrawn\": true}"));
    json(409, post(lot.path + "/restatements", SOME_REASON));
    json(404, post("/titrants/no-such-lot/restatements", SOME_REASON));
    json(422, post(lot.path + "/restatements", "{}"));
  }

  /** Each result ends restated, whether it was recorded before, after or in the midst of it. */
  @Test
  void isSafeAgainstResultsRecordedMeanwhile() throws Exception {
    TestLot lot = risenByATenth();
    TestStream stream = TestStream.soap();
    for (int day = 2; day < 10; day++) {
      titrate(stream, lot, 2.0, "2026-03-0%dT00:00:00Z".formatted(day));
    }
    lot.standardised(0.011, "2026-03-11T00:00:00Z");
    ExecutorService clients = Executors.newFixedThreadPool(4);
    try {
      List<Callable<JsonNode>> all = new ArrayList<>();
      for (int hour = 0; hour < 20; hour++) {
        String sampledAt = "2026-03-12T%02d:00:00Z".formatted(hour);
        all.add(() -> titrate(stream, lot, 2.0, sampledAt));
      }
      all.add(5, () -> restate(lot, SOME_REASON));
      all.add(10, () -> restate(lot, SOME_REASON));
      for (Future<JsonNode> each : clients.invokeAll(all)) {
        assertThat(each.get()).isNotNull();
      }
    } finally {
      clients.shutdown();
    }
    JsonNode points = stream.chart("individuals").get("points");
    assertThat(points).hasSize(28);
    for (int i = 0; i < 28; i++) {
      // 2 to 9 March lie 1 to 8 days of 10 behind the first standardisation.
      double normality = i < 8 ? 0.01 + 0.001 * (i + 1) / 10 : 0.011;
      assertThat(points.get(i).get("value").asDouble())
          .isCloseTo(2.0 * 100 * MG_PER_KG_PER_ML * normality, within(1e-9));
    }
  }
}
