package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Laws of the run rules on series rounded so coarsely that ties and results on lines abound. */
class RunStateLawsTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int LENGTH = 400;

  static LongStream seeds() {
    return LongStream.range(0, 60);
  }

  /** Quiet, wild, drifting or alternating about 0 with sigma 1, as the seed has it. */
  private static double[] series(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double spread = List.of(0.3, 1.0, 2.5).get(random.nextInt(3));
    double memory = List.of(0.0, 0.9, -0.95).get(random.nextInt(3));
    double step = List.of(0.125, 0.25, 0.5).get(random.nextInt(3));
    double[] values = new double[LENGTH];
    double level = 0;
    for (int i = 0; i < LENGTH; i++) {
      level = memory * level + spread * random.nextGaussian();
      values[i] = step * Math.rint(level / step);
    }
    return values;
  }

  /** The state after each result. */
  private static List<RunState> states(double[] values, ControlLimits limits) {
    RunState[] states = new RunState[values.length];
    RunState state = RunState.START;
    for (int i = 0; i < values.length; i++) {
      state = state.next(values[i], limits);
      states[i] = state;
    }
    return List.of(states);
  }

  private static double[] moved(double[] values, double scale, double by) {
    return IntStream.range(0, values.length).mapToDouble(i -> scale * values[i] + by).toArray();
  }

  private static void assertAgrees(double[] values, ControlLimits limits) {
    List<RunState> states = states(values, limits);
    RunRuleDefinitions definitions = new RunRuleDefinitions(values, limits);
    for (int i = 0; i < values.length; i++) {
      for (RunRule rule : RunRule.values()) {
        assertThat(states.get(i).side(rule))
            .as("%s at %d", rule.id(), i)
            .isEqualTo(definitions.side(rule, i));
      }
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void streamingAgreesWithTheDefinitions(long seed) {
    assertAgrees(series(seed), new ControlLimits(0, 1, false));
  }

  // With a centre of 0.5, 1.5 or 2.5 there is no lower boundary at one, two or three sigma.
  @ParameterizedTest
  @MethodSource("seeds")
  void streamingAgreesWithTheDefinitionsNearZero(long seed) {
    double centre = 0.5 + seed % 3;
    assertAgrees(moved(series(seed), 1, centre), new ControlLimits(centre, 1, true));
  }

  @Test
  void everyRuleHoldsSomewhereInTheseSeries() {
    Set<RunRule> all = EnumSet.allOf(RunRule.class);
    Set<RunRule> seen = EnumSet.noneOf(RunRule.class);
    seeds()
        .mapToObj(seed -> states(series(seed), new ControlLimits(0, 1, false)))
        .flatMap(List::stream)
        .forEach(state -> seen.addAll(state.holding(all)));
    assertThat(seen).isEqualTo(all);
  }

  // The numbers are multiples of 1/8, so that moving and scaling them is exact.
  @ParameterizedTest
  @MethodSource("seeds")
  void movingAndScalingTheSeriesChangesNoSignal(long seed) {
    double[] values = series(seed);
    List<RunState> states = states(values, new ControlLimits(0, 1, false));
    List<RunState> same = states(moved(values, 4, 100), new ControlLimits(100, 4, false));
    for (int i = 0; i < values.length; i++) {
      for (RunRule rule : RunRule.values()) {
        assertThat(same.get(i).side(rule)).isEqualTo(states.get(i).side(rule));
      }
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void reflectingTheSeriesSwapsTheSides(long seed) {
    ControlLimits limits = new ControlLimits(0, 1, false);
    double[] values = series(seed);
    List<RunState> states = states(values, limits);
    List<RunState> reflected = states(moved(values, -1, 0), limits);
    for (int i = 0; i < values.length; i++) {
      for (RunRule rule : RunRule.values()) {
        assertThat(reflected.get(i).side(rule)).isEqualTo(opposite(states.get(i).side(rule)));
      }
    }
  }

  private static @Nullable Side opposite(@Nullable Side side) {
    if (side == null) {
      return null;
    }
    return switch (side) {
      case HIGH -> Side.LOW;
      case LOW -> Side.HIGH;
      case NONE -> Side.NONE;
    };
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everyStateIsReadBackExactlyAsItWasStored(long seed) throws JsonProcessingException {
    for (RunState state : states(series(seed), new ControlLimits(0, 1 / 3.0, false))) {
      assertThat(JSON.readValue(JSON.writeValueAsString(state), RunState.class)).isEqualTo(state);
    }
  }
}
