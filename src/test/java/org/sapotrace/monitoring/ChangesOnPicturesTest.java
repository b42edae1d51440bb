package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** What pictures tell beside the results. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ChangesOnPicturesTest {

  private static final Instant FIRST = Instant.parse("2026-03-01T06:00:00Z");

  /** Under given limits of 7 and 13, one result a day. */
  private static TestStream daily(String chart, double... values) {
    TestStream stream = TestStream.charted(chart);
    stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");
    for (int day = 0; day < values.length; day++) {
      stream.recordAt(values[day], FIRST.plus(day, ChronoUnit.DAYS));
    }
    return stream;
  }

  private static String svg(TestStream stream, String query) {
    return get(stream.path + "/charts/individuals.svg" + query).asString();
  }

  /** Eight results about the centre, then a step of 2 sigma that limits notice late. */
  private static TestStream stepped() {
    double[] values = {
      10, 9.5, 10.4, 9.8, 10.1, 10.3, 9.7, 10.4, 11.4, 11.9, 12.2, 11.8, 12.3, 13.4
    };
    return daily(
        "{\"rules\": [\"beyond-limits\"], \"ewma\": {\"lambda\": 0.1, \"width\": 2.9}}", values);
  }

  @Test
  void tellWhenTheChangeBehindTheSignalsBegan() {
    TestStream stream = stepped();
    // Computed from the formula: the average leaves its limits at the twelfth result, a result its
    // own at the fourteenth; C_t is largest behind the eighth, and less by at most 4 from 7 to 9.
    String svg = svg(stream, "");
    assertThat(svg).contains(">change about 9 Mar</text>");
    assertThat(svg.split(">change about", -1)).as("two rules notice one change").hasSize(2);
    assertThat(svg)
        .contains("Change about 9 Mar, between 8 Mar and 10 Mar.")
        .contains("bracket: where the change");
    assertThat(stream.chart("individuals").get("summary").asText())
        .isEqualTo("Flow, Line: out of control since 12 Mar, change about 9 Mar");
    JsonNode signals = json(200, get("/signals?line=" + stream.line)).get("items");
    assertThat(signals.findValuesAsText("startedAt")).contains("2026-03-09T06:00:00Z");
  }

  @Test
  void pointBackToAChangeBeforeWhatTheyShow() {
    assertThat(svg(stepped(), "?last=2")).contains(">← change about 9 Mar</text>");
  }

  @Test
  void sayNoMoreOfASingleOutlierThanItsMark() {
    TestStream stream = daily("{\"rules\": [\"beyond-limits\"], \"ewma\": null}", 10, 9.8, 14, 10);
    assertThat(svg(stream, "")).contains("one result beyond").doesNotContain("change about");
  }

  @Test
  void forgetAChangeWhoseSignalsLapsed() {
    TestStream stream = stepped();
    JsonNode points = stream.chart("individuals").get("points");
    for (int i = 8; i < points.size(); i++) {
      correct(points.get(i), "\"values\": [10]");
    }
    assertThat(svg(stream, "")).doesNotContain("change about", "hollow circle");
  }

  @Test
  void showWithdrawnResultsAsHollowCircles() {
    TestStream stream = daily("{\"rules\": [\"beyond-limits\"], \"ewma\": null}", 10, 9.8, 12, 10);
    correct(stream.chart("individuals").at("/points/2"), "\"withdrawn\": true");
    correct(stream.chart("individuals").at("/points/2"), "\"withdrawn\": true");

    String svg = svg(stream, "");
    assertThat(svg)
        .contains(">hollow circle: withdrawn</text>")
        .contains("2 results, 1 Mar 2026")
        .contains("Withdrawn: 2 results.");
    assertThat(svg(stream, "?to=2026-03-03T12:00:00Z")).contains("Withdrawn: 1 result.");
    assertThat(svg(stream, "?to=2026-03-02T12:00:00Z")).doesNotContain("ithdrawn");
    assertThat(svg(stream, "?last=1")).contains("Withdrawn: 2 results.");
    assertThat(get(stream.path + "/charts/moving-range.svg").asString()).doesNotContain("ithdrawn");
  }

  @Test
  void runInSequenceWhenAsked() {
    String svg = svg(stepped(), "?axis=sequence");
    assertThat(svg).contains(">results in sequence, not in time</text>").contains(">14</text>");
    json(400, get(stepped().path + "/charts/individuals.svg?axis=place"));
  }

  private static void correct(JsonNode point, String instead) {
    json(
        201,
        post(
            "/results/" + point.get("result").asText() + "/corrections",
            "{\"reason\": \"wrong bottle\", %s}".formatted(instead)));
  }
}
