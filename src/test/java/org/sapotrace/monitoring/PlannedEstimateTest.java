package org.sapotrace.monitoring;

import static io.restassured.RestAssured.given;
import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.hipparchus.stat.StatUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** Limits that were planned to be estimated once more are, and are frozen then. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class PlannedEstimateTest {

  private static final String RULES = "[\"beyond-limits\"]";
  private static final String PLAN = "{\"baseline\": {\"first\": 8}, \"reestimateAt\": [10, 12]}";

  /** Without a trend, and within three standard deviations as moving ranges have them. */
  private static double[] values(int count) {
    double[] round = {30, 33, 31, 29, 32, 30, 34, 31};
    return IntStream.range(0, count).mapToDouble(i -> round[i % 8] + i / 20.0).toArray();
  }

  @Test
  void comeFromTheFirstResultsWhenThereAreEnough() {
    TestStream stream = adopted(PLAN);
    DoubleStream.of(values(14)).skip(8).forEach(stream::record);

    List<JsonNode> limits = limits(stream);
    assertThat(limits)
        .extracting(r -> r.get("origin").asText())
        .containsExactly("baseline", "planned", "planned");
    assertThat(limits).extracting(r -> r.get("n").asInt()).containsExactly(8, 10, 12);
    assertThat(limits)
        .extracting(r -> r.get("reestimateAt").toString())
        .containsExactly("[10,12]", "[12]", "[]");
    double[] twelve = values(12);
    assertThat(limits.get(2).get("centre").asDouble())
        .isCloseTo(StatUtils.mean(twelve), within(1e-12));
    assertThat(limits.get(2).get("sigma").asDouble())
        .isCloseTo(meanMovingRange(twelve) * Math.sqrt(Math.PI) / 2, within(1e-12));
  }

  @Test
  void judgeAllResultsFromThenOnAndKeepWhatTheFirstSaid() {
    TestStream stream = adopted(PLAN);
    DoubleStream.of(values(10)).skip(8).forEach(stream::record);
    JsonNode now = json(200, get(stream.path + "/charts/individuals.json"));
    assertThat(now.at("/points/0/limitsRevision").asInt()).isEqualTo(2);
    JsonNode before = json(200, get(stream.path + "/charts/individuals.json?limitsRevision=1"));
    assertThat(before.at("/points/0/limitsRevision").asInt()).isEqualTo(1);
  }

  @Test
  void waitWhileASignalAmongThemHasNoCause() {
    TestStream stream = adopted(PLAN);
    stream.record(60);
    DoubleStream.of(values(14)).skip(9).forEach(stream::record);
    assertThat(limits(stream)).hasSize(1);
  }

  @Test
  void leaveOutWhatWasLeftOutAtFirst() {
    TestStream stream = TestStream.other(RULES);
    String wild = null;
    for (double value : new double[] {30, 33, 31, 90, 29, 32, 30, 34, 31}) {
      String id = stream.record(value).get("id").asText();
      wild = value == 90 ? id : wild;
    }
    stream.adopt(
        "{\"baseline\": {\"first\": 9}, \"reestimateAt\": [10], \"exclude\": [{\"result\": \"%s\", \"cause\": \"sampled before settling\"}]}"
            .formatted(wild));
    stream.record(32);
    assertThat(limits(stream)).hasSize(1);
    stream.record(31);
    JsonNode planned = limits(stream).get(1);
    assertThat(planned.get("n").asInt()).isEqualTo(10);
    assertThat(planned.at("/excluded/0/result").asText()).isEqualTo(wild);
    assertThat(planned.get("centre").asDouble()).isCloseTo(31.3, within(1e-12));
  }

  @Test
  void areForgottenWhenOtherLimitsAreAdopted() {
    TestStream stream = adopted(PLAN);
    stream.adopt("{\"given\": {\"centre\": 31, \"sigma\": 2}}");
    DoubleStream.of(values(14)).skip(8).forEach(stream::record);
    assertThat(limits(stream)).hasSize(2);
  }

  @Test
  void endAsOneByOneWhenManyAreImported() {
    TestStream oneByOne = adopted(PLAN);
    DoubleStream.of(values(20)).skip(8).forEach(oneByOne::record);
    TestStream imported = adopted(PLAN);
    Instant first = Instant.parse("2026-01-05T06:00:00Z");
    double[] values = values(20);
    String rows =
        IntStream.range(8, 20)
            .mapToObj(
                i ->
                    "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": [%s]}"
                        .formatted(first.plus(Duration.ofHours(i)), values[i]))
            .collect(Collectors.joining("\n"));
    json(
        200,
        given()
            .contentType("application/x-ndjson")
            .body(rows.getBytes(UTF_8))
            .post("/api/v1" + imported.path + "/imports"));
    assertThat(limits(imported)).hasSize(3);
    assertThat(imported.judgedPoints()).isEqualTo(oneByOne.judgedPoints());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {
        "{\"baseline\": {\"last\": 8}, \"reestimateAt\": [30]}; #/reestimateAt",
        "{\"given\": {\"centre\": 31, \"sigma\": 2}, \"reestimateAt\": [30]}; #/reestimateAt",
        "{\"baseline\": {\"first\": 8}, \"reestimateAt\": [8]}; #/reestimateAt/0",
        "{\"baseline\": {\"first\": 8}, \"reestimateAt\": [30, 20]}; #/reestimateAt/1"
      })
  void needAPlanThatCanBeCarriedOut(String limits, String pointer) {
    TestStream stream = TestStream.other(RULES);
    DoubleStream.of(values(8)).forEach(stream::record);
    JsonNode problem = json(422, post(stream.path + "/limits", limits));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  private static TestStream adopted(String limits) {
    TestStream stream = TestStream.other(RULES);
    DoubleStream.of(values(8)).forEach(stream::record);
    stream.adopt(limits);
    return stream;
  }

  private static List<JsonNode> limits(TestStream stream) {
    JsonNode items = json(200, get(stream.path + "/limits")).get("items");
    return IntStream.range(0, items.size()).mapToObj(items::get).toList();
  }

  private static double meanMovingRange(double[] values) {
    return IntStream.range(1, values.length)
        .mapToDouble(i -> Math.abs(values[i] - values[i - 1]))
        .average()
        .orElseThrow();
  }
}
