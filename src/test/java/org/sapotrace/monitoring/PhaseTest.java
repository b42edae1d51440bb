package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Instant;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Samples of a test stream are taken hourly, the first at 06:00 on 5 January. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class PhaseTest {

  private static final String UNIT_NORMAL = "{\"given\": {\"centre\": 0, \"sigma\": 1}}";

  @Test
  void startsRunsAfresh() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    record(stream, 7, 1);
    begin(stream, at(7));
    record(stream, 7, 1);

    assertThat(signals(stream)).isEmpty();
    assertThat(stream.record(1).at("/control/signals")).hasSize(1);
  }

  /** The second phase of one stream looks as the only phase of another. */
  @Test
  void startsAveragesAndSumsAfresh() {
    String chart = "{\"rules\": [], \"ewma\": {\"lambda\": 0.2}, \"cusum\": {\"headStart\": 2}}";
    TestStream stream = watched(chart);
    record(stream, 6, 1.5);
    begin(stream, at(6));
    TestStream fresh = watched(chart);
    for (double value : new double[] {0.4, -0.3, 1.1, 2}) {
      JsonNode second = stream.record(value).get("control");
      JsonNode only = fresh.record(value).get("control");
      assertThat(second.get("ewma")).isEqualTo(only.get("ewma"));
      assertThat(second.get("cusumHigh")).isEqualTo(only.get("cusumHigh"));
      assertThat(second.get("cusumLow")).isEqualTo(only.get("cusumLow"));
    }
  }

  @Test
  void goesOnUnderAdoptedLimitsAsARevisionOfItsOwn() {
    TestStream stream = watched("{\"rules\": [\"beyond-limits\"], \"ewma\": null}");
    record(stream, 2, 1);
    begin(stream, at(2));
    record(stream, 2, 1);

    JsonNode before = json(200, get(stream.path + "/limits/1"));
    JsonNode again = json(200, get(stream.path + "/limits/2"));
    assertThat(again.get("origin").asText()).isEqualTo("phase");
    assertThat(again.get("status").asText()).isEqualTo("adopted");
    assertThat(again.get("effectiveFrom").asText()).isEqualTo(at(2).toString());
    assertThat(again.get("centre")).isEqualTo(before.get("centre"));
    assertThat(again.get("sigma")).isEqualTo(before.get("sigma"));
    assertThat(stream.chart("individuals").get("points").findValuesAsText("limitsRevision"))
        .containsExactly("1", "1", "2", "2");
  }

  /** Whichever revision has the highest number judges, so the later limits come again, too. */
  @Test
  void leavesLimitsLaidDownForLaterInForce() {
    TestStream stream = watched("{\"rules\": [\"beyond-limits\"], \"ewma\": null}");
    stream.adopt(
        "{\"given\": {\"centre\": 5, \"sigma\": 1}, \"effectiveFrom\": \"%s\"}".formatted(at(4)));
    begin(stream, at(2));
    record(stream, 6, 1);

    JsonNode limits = json(200, get(stream.path + "/limits")).get("items");
    assertThat(limits.findValuesAsText("centre")).containsExactly("0.0", "5.0", "0.0", "5.0");
    assertThat(limits.at("/3/effectiveFrom").asText()).isEqualTo(at(4).toString());
    assertThat(stream.chart("individuals").get("points").findValuesAsText("limitsRevision"))
        .containsExactly("1", "1", "3", "3", "4", "4");
  }

  @Test
  void startsAfreshUnderLimitsThatCoverSeveralPhases() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    record(stream, 7, 1);
    begin(stream, at(7));
    record(stream, 7, 1);
    stream.adopt(
        "{\"given\": {\"centre\": 0, \"sigma\": 2}, \"effectiveFrom\": \"%s\"}".formatted(at(0)));

    assertThat(stream.chart("individuals").get("points").findValuesAsText("limitsRevision"))
        .containsOnly("3");
    assertThat(signals(stream)).isEmpty();
    assertThat(stream.record(1).at("/control/signals")).hasSize(1);
  }

  @Test
  void recordedLateTakesBackWhatReachedOverItsBeginning() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    record(stream, 10, 1);
    JsonNode asItWas = stream.chart("individuals");
    String signal = signals(stream).at("/0/id").asText();
    begin(stream, at(5));

    JsonNode lapsed = json(200, get("/signals/" + signal));
    assertThat(lapsed.get("state").asText()).isEqualTo("lapsed");
    assertThat(lapsed.at("/lapse/reason").asText()).isEqualTo("a new phase began");
    assertThat(stream.liveSignals()).isEmpty();
    assertThat(chart(stream, "individuals.json?limitsRevision=1")).isEqualTo(asItWas);
  }

  @Test
  void isNotOnAChartAsItWasBefore() {
    TestStream stream = watched("{\"rules\": [\"beyond-limits\"], \"ewma\": null}");
    record(stream, 3, 1);
    record(stream, 3, 2);
    JsonNode ranges = stream.chart("moving-range");
    begin(stream, at(3));

    assertThat(ranges.at("/points/3/plotted").asDouble()).isEqualTo(1);
    assertThat(stream.chart("moving-range").at("/points/3/plotted").isNull()).isTrue();
    assertThat(stream.chart("moving-range").get("events")).hasSize(1);
    assertThat(chart(stream, "moving-range.json?limitsRevision=1")).isEqualTo(ranges);
  }

  /** Of ten results of a run, a late one in the earlier phase touches only that phase. */
  @Test
  void takesLateResultsByTheTimeOfSampling() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    record(stream, 6, 1);
    begin(stream, at(6));
    record(stream, 6, 1);
    stream.recordAt(1, at(5).plusSeconds(60));
    JsonNode eighth = stream.recordAt(1, at(5).plusSeconds(120));

    assertThat(eighth.at("/control/limitsRevision").asInt()).isEqualTo(1);
    assertThat(eighth.at("/control/signals")).hasSize(1);
    assertThat(stream.liveSignals())
        .containsExactly(
            "eight-same-side high from 2026-01-05T11:02:00Z to 2026-01-05T11:02:00Z, 1");
  }

  @Test
  void holdsASampleTakenWhenItBegins() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    begin(stream, at(1));
    record(stream, 2, 1);

    assertThat(stream.chart("individuals").get("points").findValuesAsText("limitsRevision"))
        .containsExactly("1", "2");
  }

  @Test
  void doesNotBeginTwice() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    begin(stream, at(1));
    begin(stream, at(1));

    assertThat(json(200, get(stream.path + "/limits")).get("items")).hasSize(2);
  }

  @Test
  void isOfTheStreamsThatTheEventTouches() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    String other = stream.path.replace("watched", "other");
    json(
        201,
        put(
            other,
            "{\"name\": \"Other\", \"samplingPoint\": \"other\", \"measurand\": \"other\", \"unit\": \"1\"}"));
    event(
        stream,
        "{\"kind\": \"feed-change\", \"at\": \"%s\", \"streams\": [\"other\"], \"newPhase\": true}"
            .formatted(at(3)));
    record(stream, 8, 1);

    assertThat(signals(stream)).hasSize(1);
    assertThat(stream.chart("individuals").get("events")).isEmpty();
  }

  @Test
  void doesNotBeginWithAnyOtherEvent() {
    TestStream stream = watched("{\"rules\": [\"eight-same-side\"], \"ewma\": null}");
    event(stream, "{\"kind\": \"maintenance\", \"at\": \"%s\"}".formatted(at(4)));
    record(stream, 8, 1);

    assertThat(signals(stream)).hasSize(1);
  }

  @Test
  void isTheFarthestThatAChangeIsLookedForIn() {
    TestStream stream = watched("{\"rules\": [\"beyond-limits\"], \"ewma\": null}");
    record(stream, 4, 2.5);
    begin(stream, at(4));
    record(stream, 1, 2.5);
    stream.record(4);

    assertThat(signals(stream).at("/0/startedAt").asText()).isEqualTo(at(4).toString());
  }

  // computed: values 10 and 11 in turn, then 20 and 21 in turn, eight each. All 14 moving ranges
  // within the phases are 1, so sigma = 1 / d2(2) = sqrt(pi) / 2; the step of 9 is none of them.
  @Test
  void breaksTheMovingRangesOfABaseline() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (int i = 0; i < 16; i++) {
      stream.record((i < 8 ? 10 : 20) + i % 2);
    }
    begin(stream, at(8));

    assertThat(stream.adopt("{\"baseline\": {\"first\": 16}}").get("sigma").asDouble())
        .isCloseTo(Math.sqrt(Math.PI) / 2, within(1e-12));
  }

  @Test
  void startsTheFirstWatchAfresh() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    record(stream, 1, 30);
    record(stream, 1, 31);
    record(stream, 1, 30);
    begin(stream, at(3));

    assertThat(stream.record(60).at("/control/firstWatch").isNull()).isTrue();
    assertThat(stream.record(61).at("/control/firstWatch").isNull()).isTrue();
    assertThat(stream.record(62).at("/control/firstWatch/text").asText())
        .endsWith("the 2 results before it lead to expect.");
  }

  @Test
  void standsAmongTheEventsOfTheChart() {
    TestStream stream = watched("{\"rules\": [\"beyond-limits\"], \"ewma\": null}");
    record(stream, 6, 1);
    event(stream, "{\"kind\": \"other\", \"at\": \"%s\"}".formatted(at(0).minusSeconds(1)));
    begin(stream, at(4));
    event(
        stream,
        "{\"kind\": \"titrant-change\", \"at\": \"%s\", \"note\": \"bottle 8\"}".formatted(at(2)));
    event(stream, "{\"kind\": \"maintenance\", \"at\": \"%s\"}".formatted(at(9)));

    JsonNode events = stream.chart("individuals").get("events");
    assertThat(events.findValuesAsText("kind"))
        .containsExactly("titrant-change", "media-change", "maintenance");
    assertThat(events.at("/0/note").asText()).isEqualTo("bottle 8");
    assertThat(events.at("/0/at").asText()).isEqualTo(at(2).toString());
    assertThat(chart(stream, "individuals.json?last=2").get("events")).hasSize(2);
    assertThat(
            chart(stream, "individuals.json?from=%s&to=%s".formatted(at(0), at(4))).get("events"))
        .hasSize(2);
  }

  static Instant at(int hours) {
    return Instant.parse("2026-01-05T06:00:00Z").plusSeconds(3600L * hours);
  }

  static void begin(TestStream stream, Instant at) {
    event(stream, "{\"kind\": \"media-change\", \"at\": \"%s\", \"newPhase\": true}".formatted(at));
  }

  private static void event(TestStream stream, String event) {
    json(201, post("/lines/" + stream.line + "/events", event));
  }

  private static TestStream watched(String chart) {
    TestStream stream = TestStream.charted(chart);
    stream.adopt(UNIT_NORMAL);
    return stream;
  }

  private static void record(TestStream stream, int count, double value) {
    for (int i = 0; i < count; i++) {
      stream.record(value);
    }
  }

  private static JsonNode chart(TestStream stream, String query) {
    return json(200, get(stream.path + "/charts/" + query));
  }

  private static JsonNode signals(TestStream stream) {
    return json(200, get("/signals?line=%s&stream=watched".formatted(stream.line))).get("items");
  }
}
