package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
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

@QuarkusTest
@WithTestResource(PostgresResource.class)
class TrialLimitsTest {

  @Test
  void comeWithTheTwentiethResultAndJudgeAllOfThem() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    assertThat(alternating(stream, 19).at("/control/limitsRevision").isNull()).isTrue();
    JsonNode twentieth = stream.record(12);

    assertThat(twentieth.at("/control/limitsRevision").asInt()).isEqualTo(1);
    JsonNode limits = json(200, get(stream.path + "/limits/1"));
    assertThat(limits.get("status").asText()).isEqualTo("trial");
    assertThat(limits.get("n").asInt()).isEqualTo(20);
    assertThat(stream.chart("individuals").get("points"))
        .allSatisfy(point -> assertThat(point.get("limitsRevision").asInt()).isEqualTo(1));
  }

  @Test
  void areNotMovedByLaterResults() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    alternating(stream, 20);
    JsonNode before = json(200, get(stream.path + "/limits"));
    alternating(stream, 10);

    assertThat(json(200, get(stream.path + "/limits"))).isEqualTo(before);
  }

  @Test
  void doNotComeFromEqualResults() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (int i = 0; i < 20; i++) {
      stream.record(7);
    }

    assertThat(json(200, get(stream.path + "/limits")).get("items")).isEmpty();
  }

  /** Most coarse results are equal, so that the median of the ranges is 0 and their mean is not. */
  @Test
  void comeFromTheMeanRangeWhereTheMedianIsZero() {
    TestStream stream =
        TestStream.with(
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"dispersion": "median-moving-range"}}
            """);
    for (int i = 0; i < 20; i++) {
      stream.record(i == 10 ? 8 : 7);
    }

    assertThat(json(200, get(stream.path + "/limits")).at("/items/0/dispersion").asText())
        .isEqualTo("moving-range");
  }

  @Test
  void doNotComeWhereLimitsWereGiven() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    alternating(stream, 21);

    assertThat(json(200, get(stream.path + "/limits")).get("items")).hasSize(1);
  }

  @Test
  void giveWayToAdoptedOnesFromTheFirstResultOn() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    alternating(stream, 25);
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 25}, \"reason\": \"settled\"}");

    assertThat(adopted.get("revision").asInt()).isEqualTo(2);
    assertThat(adopted.get("status").asText()).isEqualTo("adopted");
    assertThat(stream.chart("individuals").get("points"))
        .allSatisfy(point -> assertThat(point.get("limitsRevision").asInt()).isEqualTo(2));
  }

  @Test
  void laterAdoptionsHoldFromTheirBaseline() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    alternating(stream, 10);
    stream.adopt("{\"baseline\": {\"first\": 10}}");
    alternating(stream, 10);
    stream.adopt("{\"baseline\": {\"last\": 10}}");

    JsonNode points = stream.chart("individuals").get("points");
    assertThat(points.get(9).get("limitsRevision").asInt()).isEqualTo(1);
    assertThat(points.get(10).get("limitsRevision").asInt()).isEqualTo(2);
  }

  @Test
  void laidDownForLaterStayForLaterWhenTheRulesChange() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 2}}");
    stream.adopt(
        "{\"given\": {\"centre\": 300, \"sigma\": 2}, \"effectiveFrom\": \"2099-01-01T00:00:00Z\"}");
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"rules": "nelson-1984"}}
            """));

    JsonNode limits = json(200, get(stream.path + "/limits")).get("items");
    assertThat(limits).hasSize(4);
    assertThat(limits.at("/2/centre").asDouble()).isEqualTo(30);
    assertThat(limits.at("/3/centre").asDouble()).isEqualTo(300);
    assertThat(limits.at("/3/effectiveFrom").asText()).isEqualTo("2099-01-01T00:00:00Z");
    JsonNode recorded = stream.recordAt(31, Instant.now());
    assertThat(recorded.at("/control/limitsRevision").asInt()).isEqualTo(3);
    assertThat(recorded.at("/control/signals")).isEmpty();
  }

  @Test
  void anAdoptionSaysWhatIsWrongWithItsBaseline() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    alternating(stream, 10);

    assertRefused(stream, "{\"baseline\": {\"first\": 7}}", "#/baseline", "at least 8");
    assertRefused(stream, "{\"baseline\": {\"first\": 30}}", "#/baseline/first", "has 10 results");
    assertRefused(stream, "{\"given\": {\"centre\": 1, \"sigma\": 0}}", "#/given", "above 0");
    assertRefused(stream, "{}", null, "Give either a baseline or given");
  }

  @Test
  void anAdoptionFromEqualResultsIsRefused() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    for (int i = 0; i < 10; i++) {
      stream.record(7);
    }

    assertRefused(stream, "{\"baseline\": {\"first\": 10}}", "#/baseline", "differ too little");
  }

  private static void assertRefused(
      TestStream stream, String limits, String pointer, String detail) {
    JsonNode problem = json(422, post(stream.path + "/limits", limits));
    assertThat(problem.get("detail").asText()).contains(detail);
    if (pointer != null) {
      assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
    }
  }

  /** Values of 9, 10 and 11 in turn; answers the last result. */
  private static JsonNode alternating(TestStream stream, int count) {
    JsonNode last = null;
    for (int i = 0; i < count; i++) {
      last = stream.record(9 + i % 3);
    }
    return last;
  }
}
