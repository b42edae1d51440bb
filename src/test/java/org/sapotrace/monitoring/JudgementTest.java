package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.get;
import static org.sapotrace.testing.Api.json;

import com.fasterxml.jackson.databind.JsonNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.SplittableRandom;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.PostgresResource;

/** However results come in, the chart and its signals end in the same state. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class JudgementTest {

  private static final Instant START = Instant.parse("2026-02-01T00:00:00Z");
  private static final String LIMITS = "{\"given\": {\"centre\": 0, \"sigma\": 1}}";
  private static final String ALL =
      """
      {"rules": ["western-electric-1956", "nelson-1984"], "ewma": {"lambda": 0.2, "width": 2.5},
       "cusum": {"reference": 0.4, "decision": 3, "headStart": 1}}
      """;

  private record Sample(double value, Instant at) {}

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5, 6})
  void isTheSameInAnyOrderOfRecording(long seed) {
    List<Sample> samples = samples(seed, 40);
    List<Sample> shuffled = new ArrayList<>(samples);
    Collections.shuffle(shuffled, new Random(seed));

    TestStream ordered = recorded(samples);
    TestStream late = recorded(shuffled);

    assertSame(late, ordered);
    assertThat(ordered.liveSignals().toString())
        .contains("beyond-limits", "ewma-beyond-limits", "cusum-high");
  }

  @Test
  void isTheSameWhenManyRecordAtOnce() throws Exception {
    List<Sample> samples = samples(7, 60);
    TestStream ordered = recorded(samples);
    TestStream crowded = TestStream.charted(ALL);
    crowded.adopt(LIMITS);
    ExecutorService clients = Executors.newFixedThreadPool(6);
    try {
      List<Future<JsonNode>> answers =
          samples.stream()
              .map(sample -> clients.submit(() -> crowded.recordAt(sample.value(), sample.at())))
              .toList();
      for (Future<JsonNode> answer : answers) {
        assertThat(answer.get().get("id").asText()).isNotEmpty();
      }
    } finally {
      clients.shutdownNow();
    }

    assertSame(crowded, ordered);
    assertThat(positions(crowded))
        .containsExactlyElementsOf(IntStream.rangeClosed(1, 60).boxed().toList());
  }

  @Test
  void isTheSameForAnAdoptionAfterwardsAsBefore() {
    List<Sample> samples = samples(8, 40);
    TestStream before = recorded(samples);
    TestStream after = TestStream.charted(ALL);
    samples.subList(0, 19).forEach(s -> after.recordAt(s.value(), s.at()));
    after.adopt(LIMITS);
    samples.subList(19, 40).forEach(s -> after.recordAt(s.value(), s.at()));

    assertSame(after, before);
  }

  @Test
  void keepsWhatEarlierLimitsSaid() {
    TestStream stream = recorded(samples(9, 30));
    JsonNode before = stream.chart("individuals");
    stream.adopt(
        "{\"given\": {\"centre\": 1, \"sigma\": 3}, \"effectiveFrom\": \"2026-02-01T00:00:00Z\"}");

    assertThat(stream.chart("individuals").get("points")).isNotEqualTo(before.get("points"));
    JsonNode again = json(200, get(stream.path + "/charts/individuals.json?limitsRevision=1"));
    assertThat(again).isEqualTo(before);

    // Recorded when other limits had taken over: not on the chart as it was.
    stream.recordAt(2, START.plus(Duration.ofDays(3)));
    stream.recordAt(2, START.plus(Duration.ofMinutes(10)));
    assertThat(json(200, get(stream.path + "/charts/individuals.json?limitsRevision=1")))
        .isEqualTo(before);
  }

  /** Bit for bit: the figures are compared as they are answered, with all their digits. */
  private static void assertSame(TestStream one, TestStream other) {
    for (String kind : List.of("individuals", "ewma", "cusum")) {
      assertThat(one.judgedPoints(kind)).isEqualTo(other.judgedPoints(kind));
    }
    assertThat(one.liveSignals()).containsExactlyInAnyOrderElementsOf(other.liveSignals());
  }

  private static TestStream recorded(List<Sample> samples) {
    TestStream stream = TestStream.charted(ALL);
    stream.adopt(LIMITS);
    samples.forEach(sample -> stream.recordAt(sample.value(), sample.at()));
    return stream;
  }

  /** Steps of a quarter, so that ties and values on a line are common, around a drifting mean. */
  private static List<Sample> samples(long seed, int count) {
    SplittableRandom random = new SplittableRandom(seed);
    return IntStream.range(0, count)
        .mapToObj(
            i ->
                new Sample(
                    Math.round(4 * (1.3 * random.nextGaussian() + i / 40.0)) / 4.0,
                    START.plus(Duration.ofMinutes(30L * i))))
        .toList();
  }

  private static List<Integer> positions(TestStream stream) {
    List<Integer> positions = new ArrayList<>();
    json(200, get(stream.path + "/results?limit=1000"))
        .get("items")
        .forEach(result -> positions.add(result.at("/control/position").asInt()));
    return positions;
  }
}
