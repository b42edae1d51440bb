package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

@QuarkusTest
@WithTestResource(PostgresResource.class)
class CorrectionTest {

  private static final Instant START = Instant.parse("2026-02-01T00:00:00Z");
  private static final String LIMITS = "{\"given\": {\"centre\": 0, \"sigma\": 1}}";
  private static final String ALL =
      """
      {"rules": ["western-electric-1956", "nelson-1984"], "ewma": {"lambda": 0.2, "width": 2.5},
       "cusum": {"reference": 0.4, "decision": 3, "headStart": 1}}
      """;

  private static final String TITRATION =
      """
      {"batch": "K-0142", "sampledAt": "%s", "titrant": {"normality": 0.01},
       "replicates": [{"titrantMl": %s, "sampleG": 10}]}
      """;

  @Test
  void addsARevisionAndKeepsTheFirst() {
    TestStream stream = TestStream.soap();
    String id = id(json(201, post(stream.path + "/titrations", TITRATION.formatted(START, 0.15))));
    JsonNode corrected =
        json(
            201,
            correct(
                id,
                "{\"reason\": \"misread burette\", \"titration\": %s}"
                    .formatted(TITRATION.formatted(START, 0.25))));

    assertThat(corrected.get("revision").asInt()).isEqualTo(2);
    assertThat(corrected.at("/result/value").asDouble()).isCloseTo(0.25 * 304.45, within(1e-9));
    JsonNode again = json(200, get("/results/" + id));
    assertThat(again.at("/replicates/0/titrantMl").asDouble()).isEqualTo(0.25);
    assertThat(again.get("revisions")).hasSize(2);
    assertThat(again.at("/revisions/0/value").asDouble()).isCloseTo(0.15 * 304.45, within(1e-9));
    assertThat(again.at("/revisions/1/reason").asText()).isEqualTo("misread burette");
    assertThat(stream.chart("individuals").at("/points/0/value"))
        .isEqualTo(corrected.at("/result/value"));
  }

  @Test
  void takesAWithdrawnResultOffTheChart() {
    TestStream stream = watched();
    record(stream, 0, 5, 0);
    String id = stream.chart("individuals").at("/points/1/result").asText();
    JsonNode withdrawn =
        json(201, correct(id, "{\"reason\": \"wrong flask\", \"withdrawn\": true}"));

    assertThat(withdrawn.get("withdrawn").asBoolean()).isTrue();
    assertThat(withdrawn.get("control").isNull()).isTrue();
    assertThat(withdrawn.get("verdict").isNull()).isTrue();
    assertThat(stream.chart("individuals").get("points")).hasSize(2);
    JsonNode signal = json(200, get("/signals?line=" + stream.line)).at("/items/0");
    assertThat(signal.get("state").asText()).isEqualTo("lapsed");
    assertThat(signal.at("/lapse/reason").asText()).contains("wrong flask");
    JsonNode again = json(200, get("/results/" + id));
    assertThat(again.at("/revisions/1/value").isNull()).isTrue();
    assertThat(json(200, get(stream.path + "/results")).get("items")).hasSize(3);
    json(409, correct(id, "{\"reason\": \"again\", \"withdrawn\": true}"));
  }

  /** Corrections of value and time and withdrawals end where recording the truth would have. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void endsWhereRecordingTheTruthWouldHave(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    TestStream slipped = watched();
    TestStream truth = watched();
    for (int i = 0; i < 40; i++) {
      double value = value(random, i);
      Instant at = START.plus(Duration.ofMinutes(30L * i));
      switch (random.nextInt(4)) {
        case 0 -> {
          String id = id(slipped.recordAt(value(random, i) + 2, at));
          json(201, correct(id, "{\"reason\": \"misread\", \"values\": [%s]}".formatted(value)));
          truth.recordAt(value, at);
        }
        case 1 -> {
          String id = id(slipped.recordAt(value + 3, at));
          json(201, correct(id, "{\"reason\": \"wrong flask\", \"withdrawn\": true}"));
        }
        default -> {
          slipped.recordAt(value, at);
          truth.recordAt(value, at);
        }
      }
    }
    // Now that more lies behind them, some that were right are corrected again.
    List<JsonNode> points = new ArrayList<>();
    slipped.chart("individuals").get("points").forEach(points::add);
    for (int i = 0; i < points.size(); i += 7) {
      String id = points.get(i).get("result").asText();
      String value = points.get(i).get("value").toString();
      json(201, correct(id, "{\"reason\": \"doubt\", \"values\": [9]}"));
      json(201, correct(id, "{\"reason\": \"no doubt\", \"values\": [%s]}".formatted(value)));
    }

    for (String kind : List.of("individuals", "ewma", "cusum")) {
      assertThat(slipped.judgedPoints(kind)).isEqualTo(truth.judgedPoints(kind));
    }
    assertThat(slipped.liveSignals()).containsExactlyInAnyOrderElementsOf(truth.liveSignals());
  }

  @Test
  void movesAResultThatWasSampledAtAnotherTime() {
    TestStream stream = TestStream.soap();
    String first =
        id(json(201, post(stream.path + "/titrations", TITRATION.formatted(START, 0.1))));
    json(201, post(stream.path + "/titrations", TITRATION.formatted(START.plusSeconds(60), 0.2)));
    JsonNode moved =
        json(
            201,
            correct(
                first,
                "{\"reason\": \"clock was off\", \"titration\": %s}"
                    .formatted(TITRATION.formatted(START.plusSeconds(120), 0.1))));

    assertThat(moved.at("/control/position").asInt()).isEqualTo(2);
    assertThat(json(200, get(stream.path + "/results")).at("/items/1/id").asText())
        .isEqualTo(first);
  }

  @Test
  void pointsThroughTheTitrationAtWhatCannotBeTrue() {
    TestStream stream = TestStream.soap();
    String id = id(json(201, post(stream.path + "/titrations", TITRATION.formatted(START, 0.1))));
    JsonNode problem =
        json(
            422,
            correct(
                id,
                "{\"reason\": \"r\", \"titration\": %s}"
                    .formatted(TITRATION.formatted(START, -1))));
    assertThat(problem.at("/errors/0/pointer").asText())
        .isEqualTo("#/titration/replicates/0/titrantMl");
    json(422, correct(id, "{\"reason\": \"r\"}"));
    json(422, correct(id, "{\"reason\": \"r\", \"values\": [3]}"));
    json(
        404,
        correct(
            "01a21224-ffb6-7c8f-97c6-495f015c4645", "{\"reason\": \"r\", \"withdrawn\": true}"));
  }

  private static Response correct(String id, String body) {
    return post("/results/" + id + "/corrections", body);
  }

  private static String id(JsonNode recorded) {
    return recorded.get("id").asText();
  }

  private static TestStream watched() {
    TestStream stream = TestStream.charted(ALL);
    stream.adopt(LIMITS);
    return stream;
  }

  private static void record(TestStream stream, double... values) {
    for (double value : values) {
      stream.record(value);
    }
  }

  private static double value(SplittableRandom random, int i) {
    return Math.round(4 * (1.3 * random.nextGaussian() + i / 40.0)) / 4.0;
  }
}
