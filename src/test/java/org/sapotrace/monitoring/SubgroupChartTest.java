package org.sapotrace.monitoring;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static java.util.stream.Collectors.joining;
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
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.Published;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Subgroups of a stream and their charts, through the interface. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class SubgroupChartTest {

  private static final String RESULT =
      "{\"batch\": \"B-%s\", \"sampledAt\": \"%s\", \"values\": %s}";

  // Montgomery, Introduction to Statistical Quality Control, flow width, 25 subgroups of 5, charted
  // by mean and range: worked-examples.json M1.
  @Test
  void followTheTextbookByRanges() {
    TestStream stream = charted("\"subgroupSize\": 5, \"dispersion\": \"range\", \"ewma\": null");
    List<JsonNode> recorded = flowWidths(stream);
    JsonNode limits = stream.adopt("{\"baseline\": {\"first\": 25}}");
    JsonNode exact = Published.example("M1").path("exact");
    assertThat(limits.get("n").asInt()).isEqualTo(25);
    assertThat(limits.get("subgroupSize").asInt()).isEqualTo(5);
    near(limits.get("centre"), exact.get("xbarbar"));
    near(limits.get("sigma"), exact.get("sigma_R"));
    near(limits.get("upper"), exact.get("x_ucl_R"));
    near(limits.get("lower"), exact.get("x_lcl_R"));
    near(limits.get("dispersionCentre"), exact.get("rbar"));
    near(limits.get("dispersionUpper"), exact.get("r_ucl"));
    assertThat(limits.get("dispersionLower").isNull()).isTrue();
    double third = (limits.get("upper").asDouble() - limits.get("centre").asDouble()) / 3;
    assertThat(limits.at("/zones/oneSigma/upper").asDouble())
        .isCloseTo(limits.get("centre").asDouble() + third, within(1e-12));

    JsonNode means = stream.chart("mean");
    JsonNode ranges = stream.chart("range");
    // The textbook: row 1 has the mean 1.5119 and the range 0.3679.
    assertThat(means.at("/points/0/plotted").asDouble()).isCloseTo(1.51188, within(1e-12));
    assertThat(means.at("/points/0/n").asInt()).isEqualTo(5);
    assertThat(means.at("/points/0/value")).isEqualTo(recorded.get(0).at("/result/value"));
    assertThat(ranges.at("/points/0/plotted").asDouble()).isCloseTo(0.3679, within(1e-12));
    near(means.at("/points/24/upper"), exact.get("x_ucl_R"));
    near(ranges.at("/points/24/upper"), exact.get("r_ucl"));
    assertThat(means.findValues("signals").toString()).doesNotContain("beyond");
    assertThat(means.get("summary").asText())
        .isEqualTo("Flow, Line: in control, no signal in 25 results");
    assertThat(ranges.get("summary").asText())
        .isEqualTo("Flow, Line: no range above its control limit");
  }

  // The same by mean and standard deviation, which is usual for subgroups.
  @Test
  void followTheWorkedExampleByStandardDeviations() {
    TestStream stream = charted("\"subgroupSize\": 5");
    assertThat(json(200, get(stream.path)).at("/chart/dispersion").asText())
        .isEqualTo("standard-deviation");
    flowWidths(stream);
    // The service has laid down trial limits from the first twenty subgroups.
    assertThat(json(200, get(stream.path + "/limits/1")).get("status").asText()).isEqualTo("trial");
    JsonNode limits = stream.adopt("{\"baseline\": {\"last\": 25}}");
    JsonNode exact = Published.example("M1").path("exact");
    near(limits.get("sigma"), exact.get("sigma_S"));
    near(limits.get("upper"), exact.get("x_ucl_S"));
    near(limits.get("dispersionCentre"), exact.get("sbar"));
    near(limits.get("dispersionUpper"), exact.get("s_ucl"));
    JsonNode deviations = stream.chart("standard-deviation");
    near(deviations.at("/points/3/upper"), exact.get("s_ucl"));
    near(deviations.at("/points/3/centre"), exact.get("sbar"));
    assertThat(limits.at("/diagnostics/n").asInt()).isEqualTo(25);
    assertThat(limits.at("/diagnostics/advice").toString())
        .contains("from 25 subgroups by their standard deviations");
  }

  private static List<JsonNode> flowWidths(TestStream stream) {
    List<JsonNode> recorded = new ArrayList<>();
    for (JsonNode row : Published.json("datasets.json").at("/flow_width/data")) {
      recorded.add(record(stream, recorded.size(), row.toString()));
    }
    return recorded;
  }

  // By hand, centre 20, sigma 4: limits of n values 20 ± 12/√n; ranges D2(2) = 3.6858865663778,
  // D1(9) = 0.5467 (three sigma of the table: 2.970 - 3 * 0.808), c4(4) = 0.92131773192356
  // (constants.csv).
  @Test
  void haveLimitsOfTheirOwnSize() {
    TestStream stream = charted("\"subgroupSize\": 4, \"ewma\": null");
    JsonNode given = stream.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    assertThat(given.get("upper").asDouble()).isEqualTo(26);
    assertThat(given.get("dispersionCentre").asDouble())
        .isCloseTo(4 * 0.92131773192356, within(1e-12));
    JsonNode four = record(stream, 0, "[26, 27, 26, 27]");
    JsonNode one = record(stream, 1, "[26.5]");
    JsonNode nine = record(stream, 2, "[18, 20, 22, 24, 26, 25, 23, 21, 19]");
    record(stream, 3, "[20, 23]");
    assertThat(four.at("/control/upper").asDouble()).isEqualTo(26);
    assertThat(four.at("/control/signals/0/text").asText())
        .isEqualTo(
            "Flow, batch B-0: one result beyond a control limit, above the centre (26.5, centre"
                + " 20, upper control limit 26).");
    assertThat(one.at("/control/upper").asDouble()).isEqualTo(32);
    assertThat(one.at("/control/signals")).isEmpty();
    assertThat(nine.at("/control/lower").asDouble()).isEqualTo(16);

    JsonNode means = stream.chart("mean").get("points");
    assertThat(texts(means, "n")).isEqualTo("4 1 9 2");
    assertThat(texts(means, "upper")).isEqualTo("26.0 32.0 24.0 " + (20 + 12 / Math.sqrt(2)));
    assertThat(means.at("/0/z").asDouble()).isEqualTo(3.25);
    assertThat(means.at("/1/z").asDouble()).isEqualTo(1.625);
    JsonNode ranges = stream.chart("range").get("points");
    assertThat(texts(ranges, "plotted")).isEqualTo("1.0 null 8.0 3.0");
    assertThat(ranges.at("/1/upper").isNull()).isTrue();
    assertThat(ranges.at("/2/lower").asDouble()).isCloseTo(4 * 0.5467, within(1e-2));
    assertThat(ranges.at("/3/upper").asDouble()).isCloseTo(4 * 3.6858865663778, within(1e-12));
    assertThat(ranges.at("/0/lower").isNull()).isTrue();
    JsonNode deviations = stream.chart("standard-deviation").get("points");
    assertThat(deviations.at("/3/plotted").asDouble()).isCloseTo(3 / Math.sqrt(2), within(1e-14));
    assertThat(stream.chart("standard-deviation").get("summary").asText())
        .isEqualTo("Flow, Line: no standard deviation beyond its control limits");
    for (String kind : List.of("mean", "range", "standard-deviation")) {
      get(stream.path + "/charts/" + kind + ".png").then().statusCode(200);
      get(stream.path + "/charts/" + kind + ".pdf").then().statusCode(200);
      assertThat(get(stream.path + "/charts/" + kind + ".svg").asString())
          .contains("4 subgroups of 1 to 9", "limits step with the number of values, from 1 to 9");
    }
  }

  // v = 0.25²/n + 0.75² v: 0.25²/4, then 0.25²/1 + 0.75² 0.25²/4; limits 3 * 4 √v, by hand.
  @Test
  void areAveragedWithLimitsOfTheirSizes() {
    TestStream stream =
        charted("\"subgroupSize\": 4, \"rules\": [], \"ewma\": {\"lambda\": 0.25, \"width\": 3}");
    stream.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    record(stream, 0, "[24, 25, 26, 25]");
    record(stream, 1, "[19]");
    JsonNode points = stream.chart("ewma").get("points");
    assertThat(points.at("/0/plotted").asDouble()).isEqualTo(21.25);
    assertThat(points.at("/0/upper").asDouble()).isCloseTo(21.5, within(1e-14));
    assertThat(points.at("/1/plotted").asDouble()).isCloseTo(20.6875, within(1e-14));
    assertThat(points.at("/1/upper").asDouble())
        .isCloseTo(20 + 12 * Math.sqrt(0.0625 + 0.5625 * 0.0625 / 4), within(1e-13));
  }

  /** Values are taken to the scale before they are averaged; the result stays what was found. */
  @Test
  void areAveragedOnTheScale() {
    TestStream stream = charted("\"subgroupSize\": 2, \"scale\": \"log\", \"ewma\": null");
    stream.adopt("{\"given\": {\"centre\": 3, \"sigma\": 0.5}}");
    JsonNode recorded = record(stream, 0, "[10, 40]");
    assertThat(recorded.at("/result/value").asDouble()).isEqualTo(25);
    JsonNode point = stream.chart("mean").at("/points/0");
    assertThat(point.get("value").asDouble()).isEqualTo(25);
    assertThat(point.get("plotted").asDouble()).isCloseTo(Math.log(20), within(1e-14));
    assertThat(point.get("upper").asDouble())
        .isCloseTo(Math.exp(3 + 1.5 / Math.sqrt(2)), within(1e-12));
    assertThat(stream.chart("range").at("/points/0/plotted").asDouble())
        .isCloseTo(Math.log(4), within(1e-14));
    // One value without a logarithm: judged as low, and it has no place on any chart of the scale.
    JsonNode without = record(stream, 1, "[0, 20]");
    assertThat(without.at("/control/signals/0/text").asText())
        .contains("below the centre (10, where a log scale has no place");
    assertThat(stream.chart("mean").at("/points/1/plotted").isNull()).isTrue();
    assertThat(stream.chart("range").at("/points/1/plotted").isNull()).isTrue();
    JsonNode high = record(stream, 2, "[10, 250]");
    // 50 lies below exp(3 + 1.06) = 58: their mean of 130 says nothing on this scale.
    assertThat(high.at("/control/signals")).isEmpty();
  }

  @Test
  void refuseALogScaleWhereAValueIsNotPositive() {
    TestStream stream = charted("\"subgroupSize\": 3, \"scale\": \"log\"");
    for (int i = 0; i < 8; i++) {
      record(stream, i, i == 3 ? "[5, -0.1, 6]" : "[5, 6, 7]");
    }
    JsonNode problem = json(422, post(stream.path + "/limits", "{\"baseline\": {\"first\": 8}}"));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/baseline");
    assertThat(problem.get("detail").asText())
        .startsWith("1 of the 24 values of the baseline is at or below 0");
  }

  @Test
  void areCorrectedAndImported() {
    TestStream stream = charted("\"subgroupSize\": 2, \"ewma\": null");
    stream.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    String rows =
        Stream.of("[19, 21]", "[20, 40, 42]", "[20]")
            .map(values -> RESULT.formatted(1, at(values.length()), values))
            .collect(joining("\n"));
    given()
        .contentType("application/x-ndjson")
        .body(rows.getBytes(UTF_8))
        .post("/api/v1" + stream.path + "/imports")
        .then()
        .statusCode(200);
    assertThat(texts(stream.chart("mean").get("points"), "n")).isEqualTo("1 2 3");
    JsonNode last = json(200, get(stream.path + "/results")).at("/items/2");
    assertThat(last.at("/control/signals")).hasSize(1);
    JsonNode corrected =
        json(
            201,
            post(
                "/results/" + last.get("id").asText() + "/corrections",
                "{\"reason\": \"misread\", \"values\": [20, 24, 22, 22]}"));
    assertThat(corrected.at("/result/value").asDouble()).isEqualTo(22);
    assertThat(corrected.at("/control/signals")).isEmpty();
    assertThat(corrected.at("/control/upper").asDouble()).isEqualTo(26);
    JsonNode read = json(200, get("/results/" + last.get("id").asText()));
    assertThat(read.get("values")).hasSize(4);
    assertThat(stream.chart("range").at("/points/2/plotted").asDouble()).isEqualTo(4);
  }

  /** Whatever comes late, the chart ends as if it had come in order. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void areJudgedAnewAsIfInOrder(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    String chart = "\"subgroupSize\": 3, \"rules\": \"nelson-1984\", \"cusum\": {\"decision\": 4}";
    List<String> values = new ArrayList<>();
    for (int i = 0; i < 40; i++) {
      double level = i < 25 ? 20 : 23;
      values.add(
          IntStream.rangeClosed(0, random.nextInt(5))
              .mapToObj(
                  j -> String.valueOf(Math.rint(10 * (level + 4 * random.nextGaussian())) / 10))
              .collect(joining(", ", "[", "]")));
    }
    TestStream ordered = charted(chart);
    ordered.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    IntStream.range(0, 40).forEach(i -> record(ordered, i, values.get(i)));
    TestStream late = charted(chart);
    late.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    IntStream.iterate(0, i -> (i + 27) % 40).limit(40).forEach(i -> record(late, i, values.get(i)));

    for (String kind : List.of("mean", "ewma", "cusum", "range", "standard-deviation")) {
      assertThat(late.judgedPoints(kind)).isEqualTo(ordered.judgedPoints(kind));
    }
    assertThat(late.liveSignals())
        .isNotEmpty()
        .containsExactlyInAnyOrderElementsOf(ordered.liveSignals());
  }

  /**
   * Limits of single results take a mean for one result, as limits keep what they were made for.
   */
  @Test
  void waitForLimitsOfTheirOwn() {
    TestStream stream = charted("\"ewma\": null");
    stream.adopt("{\"given\": {\"centre\": 20, \"sigma\": 4}}");
    stream.record(20);
    redefined(stream, "\"subgroupSize\": 4, \"ewma\": null");
    JsonNode recorded = record(stream, 1, "[28, 29, 28, 29]");
    assertThat(recorded.at("/control/upper").asDouble()).isEqualTo(32);
    assertThat(json(200, get(stream.path + "/limits/1")).get("subgroupSize").asInt()).isEqualTo(1);
    assertThat(stream.chart("range").at("/points/1/upper").isNull()).isTrue();
    assertThat(stream.chart("range").at("/points/1/plotted").asDouble()).isEqualTo(1);
    stream.adopt(
        "{\"given\": {\"centre\": 20, \"sigma\": 4}, \"effectiveFrom\": \"2026-01-01T00:00:00Z\"}");
    JsonNode again = json(200, get("/results/" + recorded.get("id").asText()));
    assertThat(again.at("/control/upper").asDouble()).isEqualTo(26);
    assertThat(again.at("/control/signals")).hasSize(1);

    redefined(stream, "\"ewma\": null");
    assertThat(stream.chart("individuals").at("/points/1/upper").asDouble()).isEqualTo(26);
    json(422, post(stream.path + "/results", RESULT.formatted(1, at(9), "[1, 2]")));
  }

  /** A titration is what it is, and may stand beside subgroups as one of a single value. */
  @Test
  void mayBeTitrationsOfOne() {
    TestStream stream =
        TestStream.with(
            """
            {"name": "Washed fuel", "samplingPoint": "after-wash", "measurand": "soap",
             "unit": "mg/kg", "chart": {"subgroupSize": 3, "ewma": null}}
            """);
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 4}}");
    JsonNode titrated =
        json(
            201,
            post(
                stream.path + "/titrations",
                """
                {"batch": "B-1", "sampledAt": "2026-03-02T09:20:00Z",
                 "titrant": {"normality": 0.01}, "blankMl": 0,
                 "replicates": [{"titrantMl": 1.0, "sampleG": 100}, {"titrantMl": 1.02, "sampleG": 100}]}
                """));
    assertThat(titrated.at("/control/upper").asDouble()).isEqualTo(42);
    JsonNode measured =
        json(
            201,
            post(
                stream.path + "/results",
                """
                {"batch": "B-2", "sampledAt": "2026-03-03T09:20:00Z", "values": [62, 70, 66],
                 "expandedUncertainty": 4, "coverageFactor": 2}
                """));
    // The verdict is about the mean, 66 mg/kg, of which the limit of 66.21 is a tenth of u away.
    assertThat(measured.at("/result/value").asDouble()).isEqualTo(66);
    assertThat(measured.at("/result/standardUncertainty").asDouble()).isEqualTo(2);
    assertThat(measured.at("/verdict/outcome").asText()).isEqualTo("inconclusive");
    assertThat(texts(stream.chart("mean").get("points"), "n")).isEqualTo("1 3");
    JsonNode problem =
        json(422, post(stream.path + "/results", RESULT.formatted(3, at(3), "[1, 2e6]")));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/values/1");
  }

  // By hand: 0, 2, 4 of two values each; Q is Φ⁻¹(0.8333) = 0.967 (methods.md, start-up). The
  // single 40
  // between them is no mean of two.
  @Test
  void areWatchedFirstBesideThoseOfTheirSize() {
    TestStream stream = charted("\"subgroupSize\": 2");
    record(stream, 0, "[-1, 1]");
    record(stream, 1, "[40]");
    record(stream, 2, "[1, 3]");
    JsonNode watch = record(stream, 3, "[2, 6]").at("/control/firstWatch");
    assertThat(watch.get("q").asDouble()).isCloseTo(0.967, within(5e-4));
    assertThat(watch.get("text").asText())
        .endsWith("what the 2 results of its size before it lead to expect.");
  }

  // Planned when they were adopted, limits are estimated anew as they were: from subgroups.
  @Test
  void areEstimatedOnceMoreAsPlanned() {
    TestStream stream = charted("\"subgroupSize\": 2, \"ewma\": null, \"dispersion\": \"range\"");
    for (int i = 0; i < 8; i++) {
      record(stream, i, "[19, 21]");
    }
    stream.adopt("{\"baseline\": {\"first\": 8}, \"reestimateAt\": [9]}");
    record(stream, 8, "[18, 20, 22]");
    JsonNode planned = json(200, get(stream.path + "/limits/2"));
    assertThat(planned.get("origin").asText()).isEqualTo("planned");
    assertThat(planned.get("subgroupSize").asInt()).isEqualTo(2);
    assertThat(planned.get("centre").asDouble()).isEqualTo(20);
    // constants.csv: d2(2) and d2(3).
    assertThat(planned.get("sigma").asDouble())
        .isCloseTo((8 * 2 / 1.1283791670955 + 4 / 1.6925687506433) / 9, within(1e-12));
  }

  // The first ten flow widths of worked-examples.json M1, by their 50 values; mean and s computed
  // with Python's statistics module.
  @Test
  void tellTheCapabilityOfTheirValues() {
    TestStream stream =
        TestStream.with(
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "specification": {"lower": 1, "upper": 2},
             "chart": {"subgroupSize": 5, "ewma": null}}
            """);
    stream.adopt("{\"given\": {\"centre\": 1.5, \"sigma\": 0.14}}");
    flowWidths(stream);
    JsonNode capability =
        json(200, get(stream.path + "/charts/capability.json?to=2026-01-05T15:00:00Z"));
    assertThat(capability.get("n").asInt()).isEqualTo(50);
    assertThat(capability.get("mean").asDouble()).isCloseTo(1.503308, within(1e-10));
    assertThat(capability.get("standardDeviation").asDouble())
        .isCloseTo(0.120563002143, within(1e-10));
    assertThat(capability.get("summary").asText()).contains("of 50 values");
  }

  @Test
  void areRefusedWhereSingleResultsAreCharted() {
    TestStream stream = charted("\"ewma\": null");
    JsonNode problem =
        json(422, post(stream.path + "/results", RESULT.formatted(1, at(1), "[1, 2]")));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/values/1");
    assertThat(problem.get("detail").asText()).contains("with chart.subgroupSize set");
    JsonNode recorded = stream.record(1);
    json(
        422,
        post(
            "/results/" + recorded.get("id").asText() + "/corrections",
            "{\"reason\": \"misread\", \"values\": [1, 2]}"));
    for (String form : List.of("json", "png", "svg", "pdf")) {
      for (String kind : List.of("mean", "range", "standard-deviation")) {
        assertThat(
                json(404, get(stream.path + "/charts/" + kind + "." + form)).get("detail").asText())
            .contains("Ask for individuals or moving-range");
      }
    }
  }

  @Test
  void haveNoChartsOfSingleResults() {
    TestStream stream = charted("\"subgroupSize\": 2");
    for (String form : List.of("json", "png", "svg", "pdf")) {
      for (String kind : List.of("individuals", "moving-range")) {
        assertThat(
                json(404, get(stream.path + "/charts/" + kind + "." + form)).get("detail").asText())
            .contains("Ask for mean, range or standard-deviation");
      }
    }
    assertThat(stream.chart("mean").get("summary").asText()).endsWith("no results yet");
    assertThat(stream.chart("range").get("summary").asText()).endsWith("no ranges yet");
    record(stream, 1, "[1, 2]");
    assertThat(stream.chart("mean").get("summary").asText())
        .endsWith("1 result, no control limits yet");
    assertThat(stream.chart("standard-deviation").get("summary").asText())
        .endsWith("1 standard deviation, no control limits yet");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "\"subgroupSize\": 0                                   | #/chart/subgroupSize",
        "\"subgroupSize\": 101                                 | #/chart/subgroupSize",
        "\"subgroupSize\": 5, \"dispersion\": \"moving-range\" | #/chart/dispersion",
        "\"subgroupSize\": 5, \"dispersion\": \"median-moving-range\" | #/chart/dispersion",
        "\"subgroupSize\": 26, \"dispersion\": \"range\"       | #/chart/dispersion",
        "\"dispersion\": \"range\"                             | #/chart/dispersion",
      })
  void refuseSettingsThatDoNotGoTogether(String chart, String pointer) {
    TestStream stream = charted("\"subgroupSize\": 100");
    JsonNode problem = json(422, put(stream.path, definition(chart)));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  @Test
  void refuseLimitsThatCannotBeHad() {
    TestStream stream = charted("\"subgroupSize\": 5");
    for (int i = 0; i < 8; i++) {
      record(stream, i, "[" + i + "]");
    }
    JsonNode single = json(422, post(stream.path + "/limits", "{\"baseline\": {\"first\": 8}}"));
    assertThat(single.get("detail").asText()).contains("No subgroup of the baseline has two");
    JsonNode moving =
        json(
            422,
            post(
                stream.path + "/limits",
                "{\"baseline\": {\"first\": 8}, \"dispersion\": \"moving-range\"}"));
    assertThat(moving.at("/errors/0/pointer").asText()).isEqualTo("#/dispersion");
    // A mean of a hundred values could not be told from the centre.
    JsonNode tiny =
        json(422, post(stream.path + "/limits", "{\"given\": {\"centre\": 1, \"sigma\": 5e-16}}"));
    assertThat(tiny.at("/errors/0/pointer").asText()).isEqualTo("#/given");
  }

  private static TestStream charted(String chart) {
    return TestStream.charted("{" + chart + "}");
  }

  private static String definition(String chart) {
    return """
        {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
         "chart": {%s}}
        """
        .formatted(chart);
  }

  private static void redefined(TestStream stream, String chart) {
    json(200, put(stream.path, definition(chart)));
  }

  private static Instant at(int hours) {
    return Instant.parse("2026-01-05T06:00:00Z").plusSeconds(3600L * hours);
  }

  private static JsonNode record(TestStream stream, int number, String values) {
    return json(201, post(stream.path + "/results", RESULT.formatted(number, at(number), values)));
  }

  private static void near(JsonNode actual, JsonNode expected) {
    assertThat(actual.asDouble()).isCloseTo(expected.asDouble(), within(1e-9));
  }

  private static String texts(JsonNode points, String field) {
    List<String> texts = new ArrayList<>();
    points.forEach(point -> texts.add(point.get(field).asText()));
    return String.join(" ", texts);
  }
}
