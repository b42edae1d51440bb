package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Laws of the moving average and the cumulative sum on random series with shifts. */
class ChartStateLawsTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final ControlLimits UNIT = new ControlLimits(0, 1, false);
  private static final int LENGTH = 300;

  static LongStream seeds() {
    return LongStream.range(0, 60);
  }

  /** About 0 with sigma 1, and shifted now and then. */
  private static double[] series(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] values = new double[LENGTH];
    double level = 0;
    for (int i = 0; i < LENGTH; i++) {
      if (random.nextInt(40) == 0) {
        level = 1.5 * random.nextGaussian();
      }
      values[i] = Math.rint(8 * (level + random.nextGaussian())) / 8;
    }
    return values;
  }

  private static Detectors detectors(long seed) {
    SplittableRandom random = new SplittableRandom(seed + 1000);
    double decision = 2 + 4 * random.nextDouble();
    return new Detectors(
        EnumSet.allOf(RunRule.class),
        new Ewma(List.of(0.05, 0.1, 0.3, 1.0).get(random.nextInt(4)), 2 + random.nextDouble()),
        new Cusum(random.nextDouble(), decision, random.nextBoolean() ? decision / 2 : 0));
  }

  private static List<ChartState> states(
      double[] values, ControlLimits limits, Detectors detectors) {
    ChartState[] states = new ChartState[values.length];
    ChartState state = ChartState.START;
    for (int i = 0; i < values.length; i++) {
      state = state.next(values[i], limits, detectors);
      states[i] = state;
    }
    return List.of(states);
  }

  // z_i = λ Σ (1 - λ)^j x_(i-j), written out.
  @ParameterizedTest
  @MethodSource("seeds")
  void averagesWithWeightsThatFallOffByPowers(long seed) {
    double[] values = series(seed);
    Detectors detectors = detectors(seed);
    double lambda = detectors.ewma().lambda();
    List<ChartState> states = states(values, UNIT, detectors);
    for (int i = 0; i < LENGTH; i++) {
      double sum = 0;
      for (int j = 0; j <= i; j++) {
        sum += lambda * Math.pow(1 - lambda, j) * values[i - j];
      }
      assertThat(states.get(i).ewma().average()).isCloseTo(sum, within(1e-12));
      assertThat(states.get(i).ewma().power())
          .isCloseTo(Math.pow(1 - lambda, 2.0 * (i + 1)), within(1e-13));
    }
  }

  // C+_i is the greatest of 0, the head start with all of z - k, and every Σ (z - k) that ends at
  // i.
  @ParameterizedTest
  @MethodSource("seeds")
  void addsUpFromWhereverTheSumIsGreatest(long seed) {
    double[] values = series(seed);
    Detectors detectors = detectors(seed);
    List<ChartState> states = states(values, UNIT, detectors);
    for (int i = 0; i < LENGTH; i++) {
      assertThat(states.get(i).cusum().high().value())
          .isCloseTo(greatest(values, i, detectors.cusum(), +1), within(1e-10));
      assertThat(states.get(i).cusum().low().value())
          .isCloseTo(greatest(values, i, detectors.cusum(), -1), within(1e-10));
    }
  }

  private static double greatest(double[] values, int last, Cusum cusum, int sign) {
    double sum = 0;
    double greatest = 0;
    for (int i = last; i >= 0; i--) {
      sum += sign * values[i] - cusum.reference();
      greatest = Math.max(greatest, sum);
    }
    return Math.max(greatest, sum + cusum.headStart());
  }

  /** A signal goes on from a result beyond the limit for as long as no later one is under half. */
  @ParameterizedTest
  @MethodSource("seeds")
  void signalsFromBeyondTheLimitToUnderHalfOfIt(long seed) {
    double[] values = series(seed);
    Detectors detectors = detectors(seed);
    List<ChartState> states = states(values, UNIT, detectors);
    for (int i = 0; i < LENGTH; i++) {
      Set<SignalRule> expected = new HashSet<>(states.get(i).runs().holding(detectors.rules()));
      Set<SignalRule> holding = states.get(i).holding(UNIT, detectors);
      for (SignalRule rule : DriftRule.values()) {
        if (goesOn(rule, states.subList(0, i + 1), detectors)) {
          expected.add(rule);
        }
      }
      assertThat(states.get(i).signalling(detectors).keySet())
          .isEqualTo(expected)
          .containsAll(holding);
    }
  }

  private static boolean goesOn(SignalRule rule, List<ChartState> states, Detectors detectors) {
    double side = Math.signum(share(rule, states.get(states.size() - 1), detectors));
    for (int i = states.size() - 1; i >= 0; i--) {
      double share = side * share(rule, states.get(i), detectors);
      if (share > 1) {
        return true;
      }
      if (share < 0.5) {
        return false;
      }
    }
    return false;
  }

  /** How far out the statistic lies as a share of its limit, signed. */
  private static double share(SignalRule rule, ChartState state, Detectors detectors) {
    if (rule == DriftRule.EWMA_BEYOND_LIMITS) {
      return state.ewma().average() / detectors.ewma().limits(UNIT, state.ewma()).upper();
    }
    CusumState sums = state.cusum();
    double sum = rule == DriftRule.CUSUM_HIGH ? sums.high().value() : sums.low().value();
    return sum / detectors.cusum().decision();
  }

  @Test
  void everyRuleSignalsSomewhereInTheseSeries() {
    Set<SignalRule> seen =
        seeds()
            .boxed()
            .flatMap(
                seed ->
                    states(series(seed), UNIT, detectors(seed)).stream()
                        .flatMap(state -> state.holding(UNIT, detectors(seed)).stream()))
            .collect(Collectors.toSet());
    assertThat(seen).containsAll(List.of(DriftRule.values()));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void reflectingTheSeriesSwapsTheSides(long seed) {
    Detectors detectors = detectors(seed);
    double[] values = series(seed);
    double[] mirrored = IntStream.range(0, LENGTH).mapToDouble(i -> -values[i]).toArray();
    List<ChartState> states = states(values, UNIT, detectors);
    List<ChartState> reflected = states(mirrored, UNIT, detectors);
    for (int i = 0; i < LENGTH; i++) {
      assertThat(reflected.get(i).ewma().average()).isEqualTo(0.0 - states.get(i).ewma().average());
      assertThat(reflected.get(i).cusum())
          .isEqualTo(new CusumState(states.get(i).cusum().low(), states.get(i).cusum().high()));
    }
  }

  // Powers of two change no digit.
  @ParameterizedTest
  @MethodSource("seeds")
  void scalingTheSeriesChangesNoSignal(long seed) {
    Detectors detectors = detectors(seed);
    double[] values = series(seed);
    double[] scaled = IntStream.range(0, LENGTH).mapToDouble(i -> 4 * values[i]).toArray();
    List<Map<SignalRule, Side>> signals =
        states(values, UNIT, detectors).stream().map(s -> s.signalling(detectors)).toList();
    assertThat(states(scaled, new ControlLimits(0, 4, false), detectors))
        .extracting(s -> s.signalling(detectors))
        .isEqualTo(signals);
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void namesNoMoreResultsThanThereAre(long seed) {
    Detectors detectors = detectors(seed);
    List<ChartState> states = states(series(seed), UNIT, detectors);
    for (int i = 0; i < LENGTH; i++) {
      for (SignalRule rule : states.get(i).signalling(detectors).keySet()) {
        assertThat(states.get(i).window(rule))
            .isBetween(1, Math.min(i + 1, ChartState.MOST_IN_WINDOW));
      }
    }
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everyStateIsReadBackExactlyAsItWasStored(long seed) throws JsonProcessingException {
    for (ChartState state :
        states(series(seed), new ControlLimits(0, 1 / 3.0, false), detectors(seed))) {
      assertThat(JSON.readValue(JSON.writeValueAsString(state), ChartState.class)).isEqualTo(state);
    }
  }
}
