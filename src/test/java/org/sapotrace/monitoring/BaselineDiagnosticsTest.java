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
import jakarta.inject.Inject;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import javax.sql.DataSource;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.Published;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** What a baseline says about itself in the answer of the limits taken from it. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class BaselineDiagnosticsTest {

  @Inject DataSource database;

  // worked-examples.json N6 and AD-nist_boxcox; the moving ranges of the 42 values lie on a grid of
  // 0.01.
  @Test
  void comesWithLimitsThatAreAdopted() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    recorded(stream, Published.series("nist_boxcox"));
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 42}}");
    JsonNode found = adopted.get("diagnostics");

    assertThat(found.get("n").asInt()).isEqualTo(42);
    assertThat(found.get("distinctValues").asInt()).isEqualTo(15);
    assertThat(found.at("/normality/statistic").asDouble()).isCloseTo(2.10139755, within(1e-6));
    assertThat(found.at("/normality/pValue").asDouble()).isCloseTo(1.94550765e-05, within(1e-10));
    assertThat(found.at("/boxCox/lambda").asDouble()).isCloseTo(0.275937279, within(1e-8));
    assertThat(found.at("/boxCox/lower").asDouble()).isCloseTo(-0.01778683, within(1e-6));
    assertThat(found.at("/boxCox/upper").asDouble()).isCloseTo(0.5863812, within(1e-6));
    assertThat(found.at("/autocorrelation/pValue").asDouble()).isBetween(0.0, 1.0);
    assertThat(found.at("/resolution/step").asDouble()).isEqualTo(0.01);
    assertThat(found.at("/resolution/adequate").asBoolean()).isTrue();
    assertThat(found.get("advice").toString()).contains("Chart this stream on a log scale");
    int revision = adopted.get("revision").asInt();
    assertThat(json(200, get(stream.path + "/limits/" + revision))).isEqualTo(adopted);
    assertThat(json(200, get(stream.path + "/limits")).get("items").get(revision - 1))
        .isEqualTo(adopted);
  }

  @Test
  void comesWithTrialLimits() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    recorded(stream, Published.series("nist_cusum"));

    JsonNode limits = json(200, get(stream.path + "/limits/1"));
    assertThat(limits.at("/diagnostics/n").asInt()).isEqualTo(20);
    // worked-examples.json P-nist_cusum: the level changes behind the twelfth.
    assertThat(limits.at("/diagnostics/advice").toString())
        .contains("Take the baseline from one side of batch B only");
  }

  @Test
  void namesTheResultsAtWhichRulesHold() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    List<String> ids = recorded(stream, 10, 11, 10, 9, 10, 11, 20, 10, 9, 10, 11, 10);
    JsonNode found =
        stream
            .adopt("{\"baseline\": {\"first\": 12}, \"dispersion\": \"median-moving-range\"}")
            .get("diagnostics");

    assertThat(found.get("signals")).hasSize(1);
    assertThat(found.at("/signals/0/rule").asText()).isEqualTo("beyond-limits");
    assertThat(found.at("/signals/0/side").asText()).isEqualTo("high");
    assertThat(found.at("/signals/0/results")).hasSize(1);
    assertThat(found.at("/signals/0/results/0").asText()).isEqualTo(ids.get(6));
    assertThat(found.at("/advice/0").asText()).startsWith("Find out what happened at batch B");
  }

  @Test
  void isNullForGivenLimits() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    JsonNode given = stream.adopt("{\"given\": {\"centre\": 10, \"sigma\": 1}}");

    assertThat(given.get("diagnostics").isNull()).isTrue();
    assertThat(given.get("excluded")).isEmpty();
  }

  @Test
  void goesWithItsBaselineWhenTheRulesChange() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    recorded(stream, 10, 11, 10, 9, 10, 11, 10, 10, 9, 10);
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 10}}");
    json(
        200,
        put(
            stream.path,
            """
            {"name": "Flow", "samplingPoint": "other", "measurand": "other", "unit": "1",
             "chart": {"rules": "nelson-1984"}}
            """));

    JsonNode changed = json(200, get(stream.path + "/limits/2"));
    assertThat(changed.get("origin").asText()).isEqualTo("settings");
    assertThat(changed.get("diagnostics")).isEqualTo(adopted.get("diagnostics"));
  }

  /** It says what the baseline was when limits were taken from it. */
  @Test
  void staysWhenAResultIsCorrected() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    List<String> ids = recorded(stream, 10, 11, 10, 9, 10, 11, 10, 10, 9, 10);
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 10}}");
    json(
        201,
        post(
            "/results/" + ids.get(3) + "/corrections", "{\"reason\": \"typo\", \"values\": [90]}"));

    assertThat(json(200, get(stream.path + "/limits/1"))).isEqualTo(adopted);
  }

  /** What was once stored can be read for ever: this is what the column held when it was made. */
  @Test
  void readsWhatWasStored() throws SQLException {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    recorded(stream, 10, 11, 10, 9, 10, 11, 10, 10, 9, 10);
    stream.adopt("{\"baseline\": {\"first\": 10}}");
    String stored =
        """
        {"n": 12, "distinctValues": 4,
         "normality": {"statistic": 0.5, "pValue": 0.2},
         "boxCox": {"lambda": 0.3, "lower": -0.1, "upper": 0.7},
         "autocorrelation": {"lag1": 0.1, "ljungBox": 0.2, "pValue": 0.9},
         "resolution": {"step": 1.0, "possibleRanges": 4, "adequate": true},
         "signals": [{"rule": "nine-same-side", "side": "low",
                      "results": ["01a2123c-2061-7430-8be2-5f122a6bb6bf"]}],
         "advice": ["Do this."]}
        """;
    update(stream, "diagnostics", stored);
    update(
        stream,
        "excluded",
        "[{\"result\": \"01a2123c-2061-7430-8be2-5f122a6bb6bf\", \"cause\": \"spilt\"}]");

    JsonNode limits = json(200, get(stream.path + "/limits/1"));
    assertThat(limits.at("/diagnostics/signals/0/side").asText()).isEqualTo("low");
    assertThat(limits.at("/diagnostics/boxCox/upper").asDouble()).isEqualTo(0.7);
    assertThat(limits.at("/diagnostics/advice/0").asText()).isEqualTo("Do this.");
    assertThat(limits.at("/excluded/0/cause").asText()).isEqualTo("spilt");

    // As the revisions before this column was.
    update(stream, "diagnostics", null);
    assertThat(json(200, get(stream.path + "/limits/1")).get("diagnostics").isNull()).isTrue();
  }

  // By hand: without 60, mean 10.09; moving ranges 1, 1, 1, 1, 1 | 1, 1, 1, 1: none of them leads
  // over the gap, so that their mean is 1 and sigma √π/2.
  @Test
  void leavesOutResultsWithTheirCause() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    List<String> ids = recorded(stream, 10, 11, 10, 9, 10, 11, 60, 10, 9, 10, 11, 10);
    String exclude =
        "\"exclude\": [{\"result\": \"%s\", \"cause\": \"sampled before settling\"}]"
            .formatted(ids.get(6));
    JsonNode adopted = stream.adopt("{\"baseline\": {\"first\": 12}, %s}".formatted(exclude));

    assertThat(adopted.get("n").asInt()).isEqualTo(11);
    assertThat(adopted.get("centre").asDouble()).isCloseTo(111 / 11.0, within(1e-12));
    assertThat(adopted.get("sigma").asDouble()).isCloseTo(Math.sqrt(Math.PI) / 2, within(1e-12));
    assertThat(adopted.at("/excluded/0/result").asText()).isEqualTo(ids.get(6));
    assertThat(adopted.at("/excluded/0/cause").asText()).isEqualTo("sampled before settling");
    assertThat(adopted.at("/diagnostics/signals")).isEmpty();
    assertThat(json(200, get(stream.path + "/limits/1"))).isEqualTo(adopted);
    // It stays on the chart, and is judged by them.
    assertThat(stream.chart("individuals").at("/points/6/signals")).hasSize(1);
  }

  @Test
  void refusesToLeaveOutWhatIsNotThere() {
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    List<String> ids = recorded(stream, 10, 11, 10, 9, 10, 11, 10, 10, 9, 10);
    String last = "{\"result\": \"%s\", \"cause\": \"spilt\"}".formatted(ids.get(9));

    assertRefused(stream, "{\"first\": 9}", last, "#/exclude/0/result", "is not in the baseline");
    assertRefused(
        stream, "{\"first\": 10}", last + "," + last, "#/exclude/1/result", "left out twice");
    String two =
        IntStream.of(0, 4, 9)
            .mapToObj(i -> "{\"result\": \"%s\", \"cause\": \"spilt\"}".formatted(ids.get(i)))
            .reduce((a, b) -> a + "," + b)
            .orElseThrow();
    assertRefused(stream, "{\"first\": 10}", two, "#/baseline", "at least 8 results, not 7");
    JsonNode problem =
        json(
            422,
            post(
                stream.path + "/limits",
                "{\"given\": {\"centre\": 1, \"sigma\": 1}, \"exclude\": [%s]}".formatted(last)));
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo("#/exclude");
    json(
        422,
        post(
            stream.path + "/limits",
            "{\"baseline\": {\"first\": 10}, \"exclude\": [{\"result\": \"%s\"}]}"
                .formatted(ids.get(9))));
  }

  private static void assertRefused(
      TestStream stream, String baseline, String exclude, String pointer, String detail) {
    JsonNode problem =
        json(
            422,
            post(
                stream.path + "/limits",
                "{\"baseline\": %s, \"exclude\": [%s]}".formatted(baseline, exclude)));
    assertThat(problem.get("detail").asText()).contains(detail);
    assertThat(problem.at("/errors/0/pointer").asText()).isEqualTo(pointer);
  }

  private void update(TestStream stream, String column, String stored) throws SQLException {
    String update =
        "update limits_revision set %s = ?::jsonb where stream_id = (select id from stream where line = ?)"
            .formatted(column);
    try (Connection connection = database.getConnection();
        PreparedStatement statement = connection.prepareStatement(update)) {
      statement.setString(1, stored);
      statement.setString(2, stream.line);
      statement.executeUpdate();
    }
  }

  private static List<String> recorded(TestStream stream, double... values) {
    List<String> ids = new ArrayList<>();
    for (double value : values) {
      ids.add(stream.record(value).get("id").asText());
    }
    return ids;
  }
}
