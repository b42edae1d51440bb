package org.sapotrace.monitoring;

import static org.assertj.core.api.Assertions.assertThat;
import static org.sapotrace.testing.Api.json;
import static org.sapotrace.testing.Api.post;
import static org.sapotrace.testing.Api.put;

import io.quarkus.narayana.jta.QuarkusTransaction;
import io.quarkus.test.common.WithTestResource;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.testing.Api.TestStream;
import org.sapotrace.testing.Imports;
import org.sapotrace.testing.PostgresResource;

/**
 * Whatever happened to a stream, in whatever order, it stands as if its points had been judged once
 * from the first to the last: every state bit for bit, and every signal that holds.
 */
@QuarkusTest
@WithTestResource(PostgresResource.class)
class HistoryTest {

  private static final Instant START = Instant.parse("2026-02-01T00:00:00Z");
  private static final int MINUTES = 10_000;
  private static final int STEPS = 90;
  private static final String RESULT = "{\"batch\": \"B\", \"sampledAt\": \"%s\", \"values\": %s}";
  private static final List<String> CHARTS =
      List.of(
          """
          {"rules": ["western-electric-1956", "nelson-1984"], "ewma": {"lambda": 0.2, "width": 2.5},
           "cusum": {"reference": 0.4, "decision": 3, "headStart": 1}}
          """,
          "{\"rules\": [\"beyond-limits\", \"six-trending\"], \"cusum\": {\"decision\": 2}}",
          "{\"rules\": [\"nelson-1984\"], \"ewma\": null}");

  @Inject ProductLines productLines;
  @Inject Judgements judgements;
  @Inject Regimes regimes;
  @Inject Signals signals;

  @ParameterizedTest
  @CsvSource({"1, 1", "2, 1", "3, 1", "4, 1", "5, 3", "6, 4"})
  void endsAsIfItHadBeenJudgedOnceInOrder(long seed, int subgroupSize) {
    SplittableRandom random = new SplittableRandom(seed);
    TestStream stream = TestStream.charted(chart(0, subgroupSize));
    stream.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");
    List<String> results = new ArrayList<>();
    for (int step = 0; step < STEPS; step++) {
      happen(stream, results, random, subgroupSize);
    }

    Regime regime = standsAsJudgedInOrder(stream);
    assertThat(regime.revisions()).hasSizeGreaterThan(2);
    assertThat(regime.phases().beginnings()).isNotEmpty();
  }

  /** Nobody adopts limits; each phase has trial limits of its own or none. */
  @ParameterizedTest
  @ValueSource(longs = {5, 6, 7})
  void endsSoUnderTrialLimitsToo(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    TestStream stream = TestStream.charted(CHARTS.get(0));
    List<String> results = new ArrayList<>();
    for (int step = 0; step < STEPS; step++) {
      if (step % 30 == 25) {
        beginPhase(stream, random);
      } else {
        record(stream, results, random, 1);
      }
    }

    assertThat(standsAsJudgedInOrder(stream).revisions()).hasSizeGreaterThan(1);
  }

  /** In no order, over several blocks, and once more into what is there. */
  @ParameterizedTest
  @CsvSource({"8, 1", "9, 3"})
  void endsSoAfterImports(long seed, int subgroupSize) {
    SplittableRandom random = new SplittableRandom(seed);
    TestStream stream = TestStream.charted(chart(0, subgroupSize));
    stream.adopt("{\"given\": {\"centre\": 0, \"sigma\": 1}}");
    beginPhase(stream, random);
    for (int rows : new int[] {2300, 40}) {
      StringBuilder body = new StringBuilder();
      for (int i = 0; i < rows; i++) {
        Instant at = START.plus(Duration.ofMinutes(random.nextInt(MINUTES)));
        body.append(RESULT.formatted(at, values(random, at, subgroupSize))).append('\n');
      }
      json(200, Imports.ndjson(stream, body.toString()));
    }

    assertThat(standsAsJudgedInOrder(stream).phases().beginnings()).isNotEmpty();
  }

  private Regime standsAsJudgedInOrder(TestStream stream) {
    Stream found = productLines.stream(stream.line, "watched");
    Regime regime = QuarkusTransaction.requiringNew().call(() -> regimes.of(found));
    List<JudgedPoint> judged =
        QuarkusTransaction.requiringNew()
            .call(() -> judgements.judged(found.id(), PointSelection.ALL, null));
    List<Signal> live =
        QuarkusTransaction.requiringNew()
            .call(() -> signals.liveSince(found.id(), START.minus(Duration.ofDays(1))));

    assertThat(judged).hasSizeGreaterThan(40);
    Replay replay = new Replay(regime);
    judged.forEach(replay::compare);
    assertThat(live.stream().map(HistoryTest::seen)).hasSameElementsAs(replay.seen());
    assertThat(replay.seen()).isNotEmpty();
    return regime;
  }

  /** A result in its turn or in the past, a correction, a withdrawal, limits, rules, a phase. */
  private static void happen(
      TestStream stream, List<String> results, SplittableRandom random, int subgroupSize) {
    int what = random.nextInt(42);
    if (what < 30 || results.isEmpty()) {
      record(stream, results, random, subgroupSize);
    } else if (what >= 40) {
      beginPhase(stream, random);
    } else if (what < 34) {
      String values = values(random, START, subgroupSize);
      correct(pick(results, random), "\"values\": %s".formatted(values));
    } else if (what < 37) {
      correct(results.remove(random.nextInt(results.size())), "\"withdrawn\": true");
    } else if (what < 39) {
      Instant from = START.plus(Duration.ofMinutes(random.nextInt(MINUTES)));
      stream.adopt(
          "{\"given\": {\"centre\": %s, \"sigma\": %s}, \"effectiveFrom\": \"%s\"}"
              .formatted(random.nextInt(3) / 4.0, 0.5 + random.nextInt(3) / 4.0, from));
    } else {
      String chart = chart(random.nextInt(CHARTS.size()), subgroupSize);
      String definition =
          "{\"name\": \"Flow\", \"samplingPoint\": \"other\", \"measurand\": \"other\", \"unit\": \"1\", \"chart\": %s}";
      json(200, put(stream.path, definition.formatted(chart)));
      // What changed holds for samples taken from now on; limits laid down next bring it to these.
      stream.adopt(
          "{\"given\": {\"centre\": 0, \"sigma\": 0.75}, \"effectiveFrom\": \"%s\"}"
              .formatted(START.plus(Duration.ofMinutes(random.nextInt(MINUTES)))));
    }
  }

  private static void record(
      TestStream stream, List<String> results, SplittableRandom random, int subgroupSize) {
    Instant at = START.plus(Duration.ofMinutes(random.nextInt(MINUTES)));
    results.add(record(stream, values(random, at, subgroupSize), at));
  }

  private static void beginPhase(TestStream stream, SplittableRandom random) {
    Instant at = START.plus(Duration.ofMinutes(random.nextInt(MINUTES)));
    String event = "{\"kind\": \"media-change\", \"at\": \"%s\", \"newPhase\": true}".formatted(at);
    json(201, post("/lines/" + stream.line + "/events", event));
  }

  /** Steps of a quarter, so that ties and values on a line are common, with a drift. */
  private static double value(SplittableRandom random, Instant at) {
    double drift = Duration.between(START, at).toMinutes() / (MINUTES / 2.0);
    return Math.round(4 * (1.3 * random.nextGaussian() + drift)) / 4.0;
  }

  /** One value, or of a subgroup up to as many as there may be and one more. */
  private static String values(SplittableRandom random, Instant at, int subgroupSize) {
    int n = subgroupSize == 1 ? 1 : 1 + random.nextInt(subgroupSize + 1);
    return java.util.stream.Stream.generate(() -> value(random, at)).limit(n).toList().toString();
  }

  private static String chart(int number, int subgroupSize) {
    return CHARTS
        .get(number)
        .replaceFirst("\\{", "{\"subgroupSize\": %d, ".formatted(subgroupSize));
  }

  private static String record(TestStream stream, String values, Instant at) {
    return json(201, post(stream.path + "/results", RESULT.formatted(at, values)))
        .get("id")
        .asText();
  }

  private static String pick(List<String> results, SplittableRandom random) {
    return results.get(random.nextInt(results.size()));
  }

  private static void correct(String result, String how) {
    json(
        201,
        post("/results/" + result + "/corrections", "{\"reason\": \"a slip\", %s}".formatted(how)));
  }

  private static String seen(Signal signal) {
    return "%s %s from %s to %s, %d points, limits %d"
        .formatted(
            signal.rule().id(),
            signal.side(),
            signal.result(),
            signal.lastResult(),
            signal.points(),
            signal.limitsRevision());
  }

  /** Judges points once, from the first to the last, and remembers the signals seen. */
  private static final class Replay {
    private record Going(Side side, String from, int points) {}

    private final Regime regime;
    private final Map<SignalRule, Going> going = new HashMap<>();
    private final Map<String, String> last = new HashMap<>();
    private @Nullable LimitsRevision limits;
    private @Nullable Point before;
    private ChartState state = ChartState.START;

    Replay(Regime regime) {
      this.regime = regime;
    }

    void compare(JudgedPoint judged) {
      ChartedResult result = judged.point().result();
      LimitsRevision inForce = regime.inForce(result.sampledAt()).orElse(null);
      if (!Objects.equals(inForce, limits)
          || (before != null && regime.phases().separate(before, judged.point()))) {
        limits = inForce;
        state = ChartState.START;
        going.clear();
      }
      before = judged.point();
      if (inForce == null) {
        assertThat(judged.judgement()).isNull();
        return;
      }
      state =
          state.next(
              inForce.judged(result),
              inForce.values(result).size(),
              inForce.limits(),
              inForce.detectors());
      assertThat(judged.judgement())
          .isEqualTo(
              new Judgement(
                  inForce.revision(), state, state.holding(inForce.limits(), inForce.detectors())));
      follow(result.result().toString(), inForce);
    }

    private void follow(String result, LimitsRevision inForce) {
      Map<SignalRule, Side> signalling = state.signalling(inForce.detectors());
      going.keySet().retainAll(signalling.keySet());
      signalling.forEach(
          (rule, side) -> {
            Going before = going.get(rule);
            Going now =
                before != null && before.side() == side
                    ? new Going(side, before.from(), before.points() + 1)
                    : new Going(side, result, 1);
            going.put(rule, now);
            last.put(
                rule.id() + now.from() + side,
                "%s %s from %s to %s, %d points, limits %d"
                    .formatted(
                        rule.id(), side, now.from(), result, now.points(), inForce.revision()));
          });
    }

    Set<String> seen() {
      return new LinkedHashSet<>(last.values());
    }
  }
}
