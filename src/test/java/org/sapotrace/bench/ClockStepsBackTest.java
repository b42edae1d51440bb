package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusMock;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.SetClock;

/** What is recorded while the machine's clock is put back. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class ClockStepsBackTest {

  private static final Instant NOON = Instant.parse("2026-03-04T12:00:00Z");

  private final SetClock clock = new SetClock(NOON);

  @Test
  void keepsOrderAndIdentifiersWhenTheClockStepsBack() {
    QuarkusMock.installMockForType(clock, InstantSource.class);
    TestStream stream = TestStream.other("[\"beyond-limits\"]");
    stream.adopt("{\"given\": {\"centre\": 30, \"sigma\": 1}}");
    List<JsonNode> recorded = new ArrayList<>();
    recorded.add(stream.recordAt(30, NOON.minusSeconds(60)));
    clock.forward(Duration.ofHours(-2));
    // Sampled before the first, and recorded after it by a clock that says otherwise.
    recorded.add(stream.recordAt(31, NOON.minus(Duration.ofHours(3))));
    recorded.add(stream.recordAt(36, NOON.minus(Duration.ofHours(2))));
    clock.forward(Duration.ofHours(3));
    recorded.add(stream.recordAt(35, NOON));

    assertThat(recorded).extracting(result -> result.get("id").asText()).isSorted();
    assertThat(values(stream)).containsExactly(31.0, 36.0, 30.0, 35.0);
    assertThat(stream.liveSignals()).hasSize(2);

    // Revisions keep the order in which they were made.
    String corrections = "/results/%s/corrections".formatted(recorded.get(2).get("id").asText());
    json(201, post(corrections, "{\"reason\": \"a slip\", \"values\": [29]}"));
    clock.forward(Duration.ofHours(-1));
    JsonNode last = json(201, post(corrections, "{\"reason\": \"another\", \"values\": [28]}"));
    assertThat(last.get("revision").asInt()).isEqualTo(3);
    assertThat(values(stream)).containsExactly(31.0, 28.0, 30.0, 35.0);
    assertThat(stream.liveSignals()).hasSize(1);
  }

  private static List<Double> values(TestStream stream) {
    List<Double> values = new ArrayList<>();
    json(200, get(stream.path + "/results"))
        .get("items")
        .forEach(result -> values.add(result.at("/result/value").asDouble()));
    return values;
  }
}
