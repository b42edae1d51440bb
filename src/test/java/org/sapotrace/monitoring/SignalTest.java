package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.Published;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class SignalTest {

  private static final String UNIT_NORMAL = "{\"given\": {\"centre\": 0, \"sigma\": 1}}";

  @Test
  void growsWhileItsConditionContinues() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 0, 4, 5, 6, 0);

    JsonNode signals = signals(stream);
    assertThat(signals).hasSize(1);
    JsonNode signal = signals.get(0);
    assertThat(signal.get("count").asInt()).isEqualTo(3);
    assertThat(signal.get("side").asText()).isEqualTo("high");
    assertThat(signal.get("startedAt").asText()).isEqualTo("2026-01-05T07:00:00Z");
    assertThat(signal.get("lastPointAt").asText()).isEqualTo("2026-01-05T09:00:00Z");
    assertThat(signal.get("state").asText()).isEqualTo("unexplained");
  }

  @Test
  void beginsAnewAfterAPause() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 4, 0, 4);

    assertThat(signals(stream)).hasSize(2);
  }

  @Test
  void isAnotherOneOnTheOtherSide() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 4, -4);

    assertThat(signals(stream).findValuesAsText("side")).containsExactly("high", "low");
  }

  @Test
  void namesTheResultsOfItsFirstWindow() {
    TestStream stream = watched("[\"eight-same-side\"]");
    String[] results = new String[9];
    for (int i = 0; i < 9; i++) {
      results[i] = stream.record(0.5).get("id").asText();
    }

    JsonNode signal = signals(stream).get(0);
    assertThat(texts(signal.get("firstWindow")))
        .containsExactly(List.of(results).subList(0, 8).toArray(String[]::new));
    assertThat(signal.get("result").asText()).isEqualTo(results[7]);
    assertThat(signal.get("lastPoint").asText()).isEqualTo(results[8]);
    assertThat(signal.get("count").asInt()).isEqualTo(2);
    assertThat(signal.get("startedAt").asText()).isEqualTo("2026-01-05T06:00:00Z");
  }

  // worked-examples.json C-changepoint_montgomery, computed: of Montgomery's series, the change
  // lies
  // behind result 22, or behind one of 19 to 23. The signal is made by the result that follows.
  @Test
  void beginsAtTheMostLikelyStepOfTheLevel() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    double[] values = Published.series("montgomery_cusum");
    record(stream, Arrays.copyOf(values, 29));
    record(stream, 13.5);

    JsonNode signal = signals(stream).get(0);
    // Samples are an hour apart, the first at 06:00 on 5 January.
    assertThat(signal.get("startedAt").asText()).isEqualTo("2026-01-06T04:00:00Z");
    assertThat(signal.at("/startedWithin/from").asText()).isEqualTo("2026-01-06T01:00:00Z");
    assertThat(signal.at("/startedWithin/to").asText()).isEqualTo("2026-01-06T04:00:00Z");
    assertThat(signal.get("firstWindow")).hasSize(1);
  }

  @Test
  void beginsWhereItsLimitsBeganToJudgeAtTheEarliest() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 2.5, 2.5, 2.5, 2.5);
    stream.adopt(
        "{\"given\": {\"centre\": 0, \"sigma\": 1}, \"effectiveFrom\": \"2026-01-05T08:00:00Z\"}");
    record(stream, 4);

    assertThat(signals(stream).get(0).get("startedAt").asText()).isEqualTo("2026-01-05T08:00:00Z");
  }

  /** It is fixed when raised, whatever comes late. */
  @Test
  void keepsItsBeginning() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 0, 0, 4);
    JsonNode before = signals(stream).get(0);
    stream.recordAt(2.9, Instant.parse("2026-01-05T07:30:00Z"));

    assertThat(signals(stream).get(0).get("startedAt")).isEqualTo(before.get("startedAt"));
    assertThat(signals(stream).get(0).get("startedWithin")).isEqualTo(before.get("startedWithin"));
  }

  /** What alternates or rises has a pattern and no level to step to. */
  @Test
  void beginsWithItsWindowWhereTheRuleIsAboutNoStep() {
    TestStream stream = watched("[\"six-trending\"]");
    record(stream, 1, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6);

    JsonNode signal = signals(stream).get(0);
    assertThat(signal.get("startedAt").asText()).isEqualTo("2026-01-05T07:00:00Z");
    assertThat(signal.get("startedWithin").isNull()).isTrue();
  }

  @Test
  void isListedAndFoundByItsIdentifier() {
    TestStream stream = watched("[\"beyond-limits\"]");
    JsonNode recorded = stream.record(4);

    String id = recorded.at("/control/signals/0/id").asText();
    JsonNode signal = json(200, get("/signals/" + id));
    assertThat(signal.get("result").asText()).isEqualTo(recorded.get("id").asText());
    assertThat(signal.get("line").asText()).isEqualTo(stream.line);
    assertThat(signal.get("rule").asText()).isEqualTo("beyond-limits");
    assertThat(signals(stream).get(0)).isEqualTo(signal);
  }

  /** A late result on the other side breaks the run that had signalled. */
  @Test
  void lapsesWhenALateResultTakesItsConditionAway() {
    TestStream stream = watched("[\"eight-same-side\"]");
    record(stream, 1, 1, 1, 1, 1, 1, 1, 1);
    String id = signals(stream).get(0).get("id").asText();

    stream.recordAt(-1, Instant.parse("2026-01-05T08:30:00Z"));

    JsonNode signal = json(200, get("/signals/" + id));
    assertThat(signal.get("state").asText()).isEqualTo("lapsed");
    assertThat(signal.at("/lapse/reason").asText()).isNotBlank();
    assertThat(json(200, get("/signals?line=" + stream.line + "&state=unexplained")).get("items"))
        .isEmpty();
  }

  @Test
  void lapsesWhenNewLimitsNoLongerCallForIt() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 0, 4, 0);
    stream.adopt(
        "{\"given\": {\"centre\": 0, \"sigma\": 2}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");

    JsonNode signal = signals(stream).get(0);
    assertThat(signal.get("state").asText()).isEqualTo("lapsed");
    assertThat(signal.at("/lapse/reason").asText()).contains("revision 2");
  }

  @Test
  void keepsItsIdentifierWhenNewLimitsCallForItToo() {
    TestStream stream = watched("[\"beyond-limits\"]");
    record(stream, 0, 40, 41, 0);
    String before = signals(stream).get(0).get("id").asText();
    stream.adopt(
        "{\"given\": {\"centre\": 0, \"sigma\": 2}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");

    JsonNode signals = signals(stream);
    assertThat(signals).hasSize(1);
    assertThat(signals.get(0).get("id").asText()).isEqualTo(before);
    assertThat(signals.get(0).get("count").asInt()).isEqualTo(2);
    assertThat(signals.get(0).get("limitsRevision").asInt()).isEqualTo(2);
    assertThat(signals.get(0).get("text").asText()).contains("upper control limit 6");
  }

  @Test
  void followsTheRulesThatAreInUseFromThenOn() {
    TestStream stream = watched("[]");
    record(stream, 4);
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"rules": ["beyond-limits"], "ewma": null}}
            """));
    // Sampled before the change: still by the old rules.
    record(stream, 4);
    assertThat(signals(stream)).isEmpty();

    JsonNode recorded = stream.recordAt(4, Instant.now());
    assertThat(recorded.at("/control/limitsRevision").asInt()).isEqualTo(2);
    assertThat(recorded.at("/control/signals")).hasSize(1);
    assertThat(signals(stream)).hasSize(1);
  }

  private static TestStream watched(String rules) {
    TestStream stream = TestStream.other(rules);
    stream.adopt(UNIT_NORMAL);
    return stream;
  }

  private static void record(TestStream stream, double... values) {
    for (double value : values) {
      stream.record(value);
    }
  }

  private static JsonNode signals(TestStream stream) {
    return json(200, get("/signals?line=" + stream.line + "&stream=watched")).get("items");
  }

  private static List<String> texts(JsonNode array) {
    return StreamSupport.stream(array.spliterator(), false).map(JsonNode::asText).toList();
  }
}
