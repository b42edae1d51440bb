package org.sapotrace.bench;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Wash.at;
import static org.sapotrace.testing.Wash.correct;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ObjectNode;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.PostgresResource;
import org.sapotrace.testing.Wash;

/** Whatever happens on both sides, in whatever order, ends as if it was all derived at the end. */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class RemovalHistoryTest {

  private static final int BATCHES = 12;
  private static final int STEPS = 60;
  private static final String LIMITS = "{\"given\": {\"centre\": 2, \"sigma\": 0.4}}";

  /** What is on record of a result, on both lines. */
  private static final class OnRecord {
    final String stream;
    final int batch;
    final int hour;
    final List<JsonNode> results;
    double value;
    boolean withdrawn;

    OnRecord(String stream, int batch, int hour, double value, List<JsonNode> results) {
      this.stream = stream;
      this.batch = batch;
      this.hour = hour;
      this.value = value;
      this.results = results;
    }
  }

  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3})
  void endsWhereDerivingAtTheEndDoes(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    Wash watched = Wash.watched();
    json(201, post(watched.path + "washed-removal/limits", LIMITS));
    Wash unwatched = Wash.unwatched();
    List<OnRecord> record = new ArrayList<>();
    List<Integer> hours = shuffled(random);
    for (int step = 0; step < STEPS; step++) {
      switch (record.isEmpty() ? 0 : random.nextInt(5)) {
        case 3 -> correctOne(random, record);
        case 4 -> withdrawOne(random, record);
        default -> record.add(recordOne(random, hours.get(step), List.of(watched, unwatched)));
      }
    }
    json(200, unwatched.watch("washed", "crude"));
    json(201, post(unwatched.path + "washed-removal/limits", LIMITS));

    assertThat(watched.removals()).isEqualTo(bySlowDefinition(record)).hasSizeGreaterThan(3);
    assertThat(told(watched)).isEqualTo(told(unwatched));
  }

  private static List<Integer> shuffled(SplittableRandom random) {
    List<Integer> hours = new ArrayList<>(IntStream.range(0, STEPS).boxed().toList());
    for (int i = hours.size() - 1; i > 0; i--) {
      hours.set(i, hours.set(random.nextInt(i + 1), hours.get(i)));
    }
    return hours;
  }

  /** One in ten or so is at or below zero. */
  private static double value(SplittableRandom random, String stream) {
    return Math.round((stream.equals("crude") ? 400 : 50) * (random.nextDouble() * 1.1 - 0.1));
  }

  private static OnRecord recordOne(SplittableRandom random, int hour, List<Wash> lines) {
    String stream = random.nextBoolean() ? "crude" : "washed";
    int batch = random.nextInt(BATCHES);
    double value = value(random, stream);
    List<JsonNode> results =
        lines.stream().map(line -> line.record(stream, "K-" + batch, hour, value)).toList();
    return new OnRecord(stream, batch, hour, value, results);
  }

  private static void correctOne(SplittableRandom random, List<OnRecord> record) {
    OnRecord one = record.get(random.nextInt(record.size()));
    if (!one.withdrawn) {
      one.value = value(random, one.stream);
      one.results.forEach(result -> correct(result, "\"values\": [%s]".formatted(one.value)));
    }
  }

  private static void withdrawOne(SplittableRandom random, List<OnRecord> record) {
    OnRecord one = record.get(random.nextInt(record.size()));
    if (!one.withdrawn) {
      one.withdrawn = true;
      one.results.forEach(result -> correct(result, "\"withdrawn\": true"));
    }
  }

  /** Batch by batch, from all that is on record; no two samples were taken at the same time. */
  private static List<String> bySlowDefinition(List<OnRecord> record) {
    record.sort(Comparator.comparing(one -> one.hour));
    List<OnRecord> outlets = new ArrayList<>();
    for (int batch = 0; batch < BATCHES; batch++) {
      latest(record, "washed", batch).ifPresent(outlets::add);
    }
    outlets.sort(Comparator.comparing(one -> one.hour));
    List<String> removals = new ArrayList<>();
    for (OnRecord outlet : outlets) {
      latest(record, "crude", outlet.batch)
          .filter(inlet -> inlet.value > 0 && outlet.value > 0)
          .ifPresent(
              inlet ->
                  removals.add(
                      "K-%d %.6f %s"
                          .formatted(
                              outlet.batch,
                              Math.log(inlet.value / outlet.value),
                              at(outlet.hour))));
    }
    return removals;
  }

  private static Optional<OnRecord> latest(List<OnRecord> inOrder, String stream, int batch) {
    return inOrder.stream()
        .filter(one -> one.stream.equals(stream) && one.batch == batch && !one.withdrawn)
        .reduce((earlier, later) -> later);
  }

  /** The points of the removals, by what they say and not by their identifiers. */
  private static List<JsonNode> told(Wash wash) {
    List<JsonNode> points = new ArrayList<>();
    wash.points("washed-removal")
        .forEach(point -> points.add(((ObjectNode) point.deepCopy()).without("result")));
    return points;
  }
}
