package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.EnumSet;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** How means of unequal numbers of values are judged. */
class SubgroupStateTest {

  private static final ObjectMapper JSON = new ObjectMapper();
  private static final ControlLimits LIMITS = new ControlLimits(20, 4, false);
  private static final Detectors ALL =
      new Detectors(EnumSet.allOf(RunRule.class), new Ewma(0.2, 2.8), new Cusum(0.5, 4, 2));
  private static final int LENGTH = 300;

  static LongStream seeds() {
    return LongStream.range(0, 40);
  }

  private static int[] sizes(SplittableRandom random) {
    return IntStream.range(0, LENGTH).map(i -> 1 + random.nextInt(7)).toArray();
  }

  /** All but trend and alternation see a mean as far from the centre as its own sigma says. */
  @ParameterizedTest
  @MethodSource("seeds")
  void runRulesAndSumsJudgeStandardisedMeans(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int[] sizes = sizes(random);
    ControlLimits unit = new ControlLimits(0, 1, false);
    ChartState state = ChartState.START;
    RunState runs = RunState.START;
    CusumState sums = CusumState.start(ALL.cusum());
    for (int n : sizes) {
      double z = Math.rint(8 * 1.3 * random.nextGaussian()) / 8 + 1 / 16.0;
      state = state.next(20 + 4 * z / Math.sqrt(n), n, LIMITS, ALL);
      runs = runs.next(z, unit);
      sums = sums.next(z, ALL.cusum(), unit);
      assertThat(state.runs().beyond()).isEqualTo(runs.beyond());
      assertThat(state.runs().sameSide()).isEqualTo(runs.sameSide());
      assertThat(state.runs().within1()).isEqualTo(runs.within1());
      assertThat(state.runs().above2()).isEqualTo(runs.above2());
      assertThat(state.runs().below1()).isEqualTo(runs.below1());
      assertThat(state.cusum().high().value()).isCloseTo(sums.high().value(), within(1e-10));
      assertThat(state.cusum().low().value()).isCloseTo(sums.low().value(), within(1e-10));
    }
  }

  // Means 20.1, 20.2, … 20.6 of 85, 69, … 5 values: the last of them lie ever fewer of their own
  // standard deviations above the centre.
  @Test
  void trendsCompareMeansThemselves() {
    ChartState state = ChartState.START;
    for (int i = 1; i <= 6; i++) {
      state = state.next(20 + i / 10.0, 101 - 16 * i, LIMITS, ALL);
    }
    assertThat(state.runs().side(RunRule.SIX_TRENDING)).isEqualTo(Side.HIGH);
  }

  // The variance of Σ λ (1 - λ)^j x̄_(i-j), written out.
  @ParameterizedTest
  @MethodSource("seeds")
  void averagesHaveTheVarianceOfTheirWeights(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    int[] sizes = sizes(random);
    Ewma ewma = ALL.ewma();
    ChartState state = ChartState.START;
    for (int i = 0; i < LENGTH; i++) {
      double sd = 4 / Math.sqrt(sizes[i]);
      state = state.next(20 + sd * random.nextGaussian(), sizes[i], LIMITS, ALL);
      double variance = 0;
      for (int j = 0; j <= i; j++) {
        double weight = ewma.lambda() * Math.pow(1 - ewma.lambda(), j);
        variance += weight * weight / sizes[i - j];
      }
      assertThat(ewma.limits(LIMITS, state.ewma()).upper())
          .isCloseTo(20 + ewma.width() * 4 * Math.sqrt(variance), within(1e-12));
    }
  }

  /** What was single results from the beginning is judged bit by bit as it was. */
  @ParameterizedTest
  @MethodSource("seeds")
  void singleResultsNeedNoVariance(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    ChartState state = ChartState.START;
    for (int i = 1; i <= LENGTH; i++) {
      state = state.next(20 + 4 * random.nextGaussian(), 1, LIMITS, ALL);
      assertThat(state.ewma().variance()).isNull();
    }
    double settled = 0.2 / 1.8;
    assertThat(ALL.ewma().limits(LIMITS, state.ewma()).upper())
        .isEqualTo(20 + 2.8 * 4 * Math.sqrt(settled));
    // From the first subgroup on the recursion goes on from there, and no power is needed.
    double variance = state.next(20, 4, LIMITS, ALL).ewma().variance();
    assertThat(variance).isCloseTo(0.04 / 4 + 0.64 * settled, within(1e-16));
  }

  @ParameterizedTest
  @MethodSource("seeds")
  void everyStateIsReadBackExactlyAsItWasStored(long seed) throws JsonProcessingException {
    SplittableRandom random = new SplittableRandom(seed);
    ChartState state = ChartState.START;
    for (int n : sizes(random)) {
      state = state.next(20 + random.nextGaussian() / 3, n, LIMITS, ALL);
      assertThat(JSON.readValue(JSON.writeValueAsString(state), ChartState.class)).isEqualTo(state);
    }
  }

  /** A state from before there were subgroups. */
  @Test
  void readsAStateWithoutAVariance() throws JsonProcessingException {
    String stored = "{\"average\": 21.5, \"power\": 0.25, \"sameSide\": 3, \"signal\": 0}";
    assertThat(JSON.readValue(stored, EwmaState.class))
        .isEqualTo(new EwmaState(21.5, 0.25, 3, 0, null));
  }

  // By hand, centre 0 and sigma 1: behind the first, 2 and 1 of 4 and 1 values have the mean 9/5,
  // so
  // that C = 5 (9/5)² = 16.2; behind the second C = 1; with 0 of 2 values before them 7 (9/7)².
  @Test
  void aChangeOfLevelIsLookedForByTheNumberOfValues() {
    StepChange found =
        StepChange.of(
            new double[] {0, 2, 1}, new int[] {2, 4, 1}, new ControlLimits(0, 1, false), Side.HIGH);
    assertThat(found.after()).isEqualTo(1);
    assertThat(found.statistic()).isCloseTo(16.2, within(1e-14));
    assertThat(found.mean()).isCloseTo(1.8, within(1e-15));
    // 7 (9/7)² = 11.57 and 1 lie more than 4 below 16.2.
    assertThat(found.possible()).containsExactly(1);
  }
}
