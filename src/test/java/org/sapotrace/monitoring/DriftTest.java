package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.put;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.io.IOException;
import java.io.InputStream;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** The moving average and the cumulative sum of a stream, through the interface. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class DriftTest {

  private static final String UNIT_NORMAL = "{\"given\": {\"centre\": 0, \"sigma\": 1}}";

  // Montgomery, Introduction to Statistical Quality Control, 30 observations with mean 10 and
  // sigma 1; worked-examples.json M5 (k 0.5, h 5) and M7 (lambda 0.1, width 2.7).
  @Test
  void followTheTextbook() throws IOException {
    TestStream stream =
        TestStream.charted(
            "{\"rules\": [], \"ewma\": {\"lambda\": 0.1}, \"cusum\": {\"decision\": 5}}");
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    List<JsonNode> controls = new ArrayList<>();
    for (JsonNode value : published("datasets.json").at("/montgomery_cusum/data")) {
      controls.add(stream.record(value.asDouble()).get("control"));
    }
    JsonNode ewma = example("M7");
    JsonNode cusum = example("M5");
    JsonNode averages = stream.chart("ewma").get("points");
    JsonNode sums = stream.chart("cusum").get("points");
    for (int i = 0; i < 30; i++) {
      JsonNode control = controls.get(i);
      near(control.get("ewma"), ewma.at("/z/" + i), 1e-7);
      near(control.get("cusumHigh"), cusum.at("/Cplus/" + i), 1e-9);
      near(control.get("cusumLow"), cusum.at("/Cminus/" + i), 1e-9);
      assertThat(averages.get(i).get("plotted")).isEqualTo(control.get("ewma"));
      near(averages.get(i).get("upper"), ewma.at("/ucl/" + i), 1e-7);
      near(averages.get(i).get("lower"), ewma.at("/lcl/" + i), 1e-7);
      assertThat(sums.get(i).get("cusumHigh")).isEqualTo(control.get("cusumHigh"));
      assertThat(sums.get(i).get("cusumLow")).isEqualTo(control.get("cusumLow"));
      assertThat(control.get("signals")).hasSize(i < 28 ? 0 : 2);
      assertThat(averages.get(i).get("signals").toString())
          .isEqualTo(i < 28 ? "[]" : "[\"ewma-beyond-limits\"]");
      assertThat(sums.get(i).get("signals").toString())
          .isEqualTo(i < 28 ? "[]" : "[\"cusum-high\"]");
    }
    assertThat(controls.get(28).at("/signals/1/text").asText())
        .isEqualTo(
            "Flow, batch B: upward cumulative sum (CUSUM) beyond its decision value (5.28 standard"
                + " deviations gathered over 7 results, decision value 5).");
    assertThat(controls.get(28).at("/signals/0/text").asText())
        .isEqualTo(
            "Flow, batch B: moving average (EWMA) beyond its limit, above the centre (EWMA 10.65,"
                + " centre 10, its upper control limit 10.62).");
  }

  // computed: with lambda 0.5 and width 3 the limits tend to 1.732; the average of 4, 0, 0 is 2, 1,
  // 0.5, beyond the limit, above half of it and below.
  @Test
  void signalUntilTheyAreBackUnderHalfTheirLimit() {
    TestStream stream =
        TestStream.charted("{\"rules\": [], \"ewma\": {\"lambda\": 0.5, \"width\": 3}}");
    stream.adopt(UNIT_NORMAL);
    List<Integer> live = new ArrayList<>();
    for (double value : new double[] {4, 0, 0}) {
      live.add(stream.record(value).at("/control/signals").size());
    }
    assertThat(live).containsExactly(1, 1, 0);
    JsonNode signals = signals(stream);
    assertThat(signals).hasSize(1);
    assertThat(signals.at("/0/count").asInt()).isEqualTo(2);
    assertThat(signals.at("/0/side").asText()).isEqualTo("high");
    // The condition itself holds at the first result only.
    assertThat(stream.chart("ewma").findValues("signals").toString())
        .isEqualTo("[[\"ewma-beyond-limits\"], [], []]");
  }

  /** The first window of a late signal is that of the sum, which a late result before it resets. */
  @Test
  void areJudgedAnewFromALateResultOn() {
    TestStream stream = TestStream.charted("{\"rules\": [], \"ewma\": null, \"cusum\": {}}");
    stream.adopt(UNIT_NORMAL);
    for (int i = 0; i < 6; i++) {
      stream.record(1.6);
    }
    assertThat(signals(stream).at("/0/firstWindow")).hasSize(5);
    assertThat(signals(stream).at("/0/startedAt").asText()).isEqualTo("2026-01-05T06:00:00Z");

    stream.recordAt(-4, Instant.parse("2026-01-05T08:30:00Z"));

    assertThat(signals(stream).at("/0/state").asText()).isEqualTo("lapsed");
    assertThat(stream.chart("cusum").at("/points/3/cusumHigh").asDouble()).isZero();
    assertThat(stream.chart("cusum").at("/points/3/cusumLow").asDouble()).isEqualTo(3.5);
  }

  @Test
  void watchEveryNewStreamByTheDefaultMovingAverage() {
    TestStream stream = TestStream.soap();
    JsonNode chart = json(200, get(stream.path)).get("chart");
    assertThat(chart.get("rules").toString()).isEqualTo("[\"beyond-limits\"]");
    assertThat(chart.get("ewma").toString()).isEqualTo("{\"lambda\":0.2,\"width\":2.7}");
    assertThat(chart.get("cusum").isNull()).isTrue();

    JsonNode limits = stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 4}}");
    assertThat(limits.get("ewma")).isEqualTo(chart.get("ewma"));
    assertThat(limits.get("cusum").isNull()).isTrue();
    JsonNode control = stream.record(30).get("control");
    assertThat(control.get("ewma").asDouble()).isEqualTo(30);
    assertThat(control.get("cusumHigh").isNull()).isTrue();
  }

  @Test
  void areOffWhereTheyAreSetToNull() {
    TestStream stream = TestStream.charted("{\"ewma\": null, \"cusum\": null}");
    assertThat(json(200, get(stream.path)).at("/chart/ewma").isNull()).isTrue();
    stream.adopt(UNIT_NORMAL);
    assertThat(stream.record(9).at("/control/ewma").isNull()).isTrue();
    for (String form : List.of("json", "png", "svg")) {
      assertThat(json(404, get(stream.path + "/charts/ewma." + form)).get("detail").asText())
          .contains("no EWMA chart")
          .contains("chart.ewma");
    }
    assertThat(json(404, get(stream.path + "/charts/cusum.json")).get("detail").asText())
        .contains("chart.cusum");
  }

  @Test
  void haveAChartWithoutFiguresBeforeThereAreLimits() {
    TestStream stream = TestStream.charted("{\"cusum\": {}}");
    JsonNode recorded = stream.record(3);
    assertThat(recorded.at("/control/ewma").isNull()).isTrue();
    assertThat(stream.chart("ewma").at("/points/0/plotted").isNull()).isTrue();
    assertThat(stream.chart("ewma").get("summary").asText()).endsWith("no moving average yet");
    assertThat(stream.chart("cusum").get("summary").asText()).endsWith("no cumulative sum yet");
  }

  @Test
  void holdFromTheirChangeOnAsANewRevision() {
    TestStream stream = TestStream.charted("{\"rules\": [], \"ewma\": null}");
    stream.adopt(UNIT_NORMAL);
    stream.record(4);
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"rules": []}}
            """));
    assertThat(signals(stream)).isEmpty();
    JsonNode later = stream.recordAt(4, Instant.now());
    assertThat(later.at("/control/limitsRevision").asInt()).isEqualTo(2);
    assertThat(later.at("/control/ewma").asDouble()).isCloseTo(0.8, within(1e-15));
    assertThat(later.at("/control/signals/0/rule").asText()).isEqualTo("ewma-beyond-limits");
    JsonNode points = stream.chart("ewma").get("points");
    assertThat(points.at("/0/plotted").isNull()).isTrue();
    assertThat(points.at("/1/plotted").asDouble()).isCloseTo(0.8, within(1e-15));
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "{\"ewma\": {\"lambda\": 0}}                          | #/chart/ewma/lambda",
        "{\"ewma\": {\"lambda\": 1.01, \"width\": 3}}         | #/chart/ewma/lambda",
        "{\"ewma\": {\"width\": 7}}                           | #/chart/ewma/width",
        "{\"ewma\": {\"width\": \"3\"}}                       | #/chart/ewma/width",
        "{\"ewma\": {\"width\": 1e999}}                       | #/chart/ewma/width",
        "{\"cusum\": {\"reference\": -0.5}}                   | #/chart/cusum/reference",
        "{\"cusum\": {\"decision\": 0}}                       | #/chart/cusum/decision",
        "{\"cusum\": {\"decision\": 4, \"headStart\": 4.5}}   | #/chart/cusum/headStart",
        "{\"rules\": [\"ewma-beyond-limits\"]}                | #/chart/rules/0",
      })
  void refuseImpossibleSettings(String chart, String pointer) {
    TestStream stream = TestStream.soap();
    JsonNode problem =
        json(
            422,
            put(
                stream.path,
                """
                {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
                 "unit": "mg/kg", "chart": %s}
                """
                    .formatted(chart)));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  @Test
  void refuseAMisspeltSetting() {
    String definition =
        """
        {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
         "unit": "mg/kg", "chart": {"ewma": {"lamda": 0.2}}}
        """;
    JsonNode problem = json(400, put(TestStream.soap().path, definition));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/chart/ewma/lamda");
  }

  private static void near(JsonNode actual, JsonNode expected, double tolerance) {
    assertThat(actual.asDouble()).isCloseTo(expected.asDouble(), within(tolerance));
  }

  private static JsonNode signals(TestStream stream) {
    return json(200, get("/signals?line=" + stream.line)).get("items");
  }

  private static JsonNode example(String id) throws IOException {
    return StreamSupport.stream(published("worked-examples.json").spliterator(), false)
        .filter(example -> example.path("id").asText().equals(id))
        .findFirst()
        .orElseThrow()
        .path("expected");
  }

  private static JsonNode published(String file) throws IOException {
    try (InputStream in = DriftTest.class.getResourceAsStream("/control-charts/" + file)) {
      return new ObjectMapper().readTree(new String(in.readAllBytes()).replace("NaN", "null"));
    }
  }
}
