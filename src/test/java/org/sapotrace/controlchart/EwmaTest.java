package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class EwmaTest {

  private static Detectors alone(Ewma ewma) {
    return new Detectors(EnumSet.noneOf(RunRule.class), ewma, null);
  }

  /** The states after each result. */
  private static List<ChartState> states(Ewma ewma, ControlLimits limits, double... values) {
    List<ChartState> states = new ArrayList<>();
    ChartState state = ChartState.START;
    for (double x : values) {
      state = state.next(x, limits, alone(ewma));
      states.add(state);
    }
    return states;
  }

  private static List<Integer> signals(Ewma ewma, ControlLimits limits, List<ChartState> states) {
    List<Integer> signals = new ArrayList<>();
    for (int i = 0; i < states.size(); i++) {
      if (states.get(i).holding(limits, alone(ewma)).contains(DriftRule.EWMA_BEYOND_LIMITS)) {
        signals.add(i + 1);
      }
    }
    return signals;
  }

  // NIST/SEMATECH e-Handbook 6.3.2.4, lambda 0.3, width 3, centre 50, s 2.0539;
  // worked-examples.json
  // N2. The handbook's limits, 52.5884 and 47.4115, are those for large i.
  @Test
  void followsTheExampleOfTheHandbook() {
    JsonNode expected = Published.example("N2");
    Ewma ewma = new Ewma(0.3, 3);
    ControlLimits limits = new ControlLimits(50, 2.0539, false);
    List<ChartState> states = states(ewma, limits, Published.series("nist_ewma"));
    // The handbook's first value is the starting value itself.
    for (int i = 0; i < 20; i++) {
      double average = states.get(i).ewma().average();
      assertThat(average).isCloseTo(expected.at("/published_z/" + i).asDouble(), within(5e-3));
      assertThat(average).isCloseTo(expected.at("/z_exact/" + i).asDouble(), within(1e-9));
    }
    Ewma.Limits last = ewma.limits(limits, states.get(19).ewma());
    assertThat(last.upper()).isCloseTo(expected.get("ucl").asDouble(), within(1e-4));
    assertThat(last.lower()).isCloseTo(expected.get("lcl").asDouble(), within(1e-4));
    assertThat(signals(ewma, limits, states)).isEmpty();
  }

  // Montgomery, Introduction to Statistical Quality Control, the EWMA of the CUSUM data with lambda
  // 0.1 and width 2.7; worked-examples.json M7, computed to the digits given there.
  @Test
  void hasTheExactLimitsOfTheTextbook() {
    JsonNode expected = Published.example("M7");
    Ewma ewma = new Ewma(0.1, 2.7);
    ControlLimits limits = new ControlLimits(10, 1, false);
    List<ChartState> states = states(ewma, limits, Published.series("montgomery_cusum"));
    for (int i = 0; i < 30; i++) {
      EwmaState state = states.get(i).ewma();
      Ewma.Limits exact = ewma.limits(limits, state);
      assertThat(state.average()).isCloseTo(expected.at("/z/" + i).asDouble(), within(1e-7));
      assertThat(exact.upper()).isCloseTo(expected.at("/ucl/" + i).asDouble(), within(1e-7));
      assertThat(exact.lower()).isCloseTo(expected.at("/lcl/" + i).asDouble(), within(1e-7));
    }
    assertThat(signals(ewma, limits, states)).containsExactly(29, 30);
  }

  // computed: lambda = 1 leaves the results themselves, with limits of width sigma throughout.
  @Test
  void isTheChartOfSingleResultsWithAWeightOfOne() {
    Ewma ewma = new Ewma(1, 3);
    ControlLimits limits = new ControlLimits(10, 2, false);
    List<ChartState> states = states(ewma, limits, 3.9, 11, 16.1);
    assertThat(states).extracting(state -> state.ewma().average()).containsExactly(3.9, 11.0, 16.1);
    assertThat(ewma.limits(limits, states.get(0).ewma())).isEqualTo(new Ewma.Limits(10, 16, 4.0));
    assertThat(states.get(0).signalling(alone(ewma)))
        .containsEntry(DriftRule.EWMA_BEYOND_LIMITS, Side.LOW);
    assertThat(states.get(2).signalling(alone(ewma)))
        .containsEntry(DriftRule.EWMA_BEYOND_LIMITS, Side.HIGH);
  }

  // computed: with lambda 0.5, width 3 and sigma 1 the limits tend to √3 = 1.732 and half of them
  // to
  // 0.866; the average of 4, 0, 0, … is 2, 1, 0.5, … and the limits at i = 2, 3 are 1.677 and
  // 1.718.
  @Test
  void signalsUntilItIsBackUnderHalfItsLimit() {
    Ewma ewma = new Ewma(0.5, 3);
    ControlLimits limits = new ControlLimits(0, 1, false);
    List<ChartState> states = states(ewma, limits, 4, 0, 0, 0);
    assertThat(signals(ewma, limits, states)).containsExactly(1);
    assertThat(states)
        .extracting(state -> state.signalling(alone(ewma)).containsValue(Side.HIGH))
        .containsExactly(true, true, false, false);
    assertThat(states).extracting(state -> state.ewma().average()).startsWith(2.0, 1.0, 0.5);
  }

  @Test
  void turnsToTheOtherSideAtOnce() {
    Ewma ewma = new Ewma(0.9, 2);
    ControlLimits limits = new ControlLimits(0, 1, false);
    assertThat(states(ewma, limits, 4, -4))
        .extracting(state -> state.signalling(alone(ewma)).get(DriftRule.EWMA_BEYOND_LIMITS))
        .containsExactly(Side.HIGH, Side.LOW);
  }

  @Test
  void namesTheResultsSinceItCrossedTheCentre() {
    Ewma ewma = new Ewma(0.5, 2);
    ControlLimits limits = new ControlLimits(0, 1, false);
    List<ChartState> states = states(ewma, limits, 1, -3, 2, 2, 2);
    // Averages 0.5, -1.25, 0.375, 1.19, 1.59; the limits of the last are ± 1.154.
    assertThat(states.get(4).window(DriftRule.EWMA_BEYOND_LIMITS)).isEqualTo(3);
    assertThat(states.get(1).window(DriftRule.EWMA_BEYOND_LIMITS)).isEqualTo(1);
  }

  // computed: the first limit is 1 - 0.1 * 2.9 * 4 < 0, later ones are 2.9 * 4 √(0.1/1.9) = 2.66
  // away.
  @Test
  void hasNoLowerLimitAtOrBelowZeroWhereNothingIsNegative() {
    Ewma ewma = new Ewma(0.1, 2.9);
    ControlLimits limits = new ControlLimits(1, 4, true);
    ChartState state = states(ewma, limits, -80).get(0);
    assertThat(ewma.limits(limits, state.ewma()).lower()).isNull();
    assertThat(state.holding(limits, alone(ewma))).isEmpty();
    ControlLimits high = new ControlLimits(3, 4, true);
    assertThat(ewma.limits(high, state.ewma()).lower()).isCloseTo(1.84, within(1e-12));
  }

  // computed: 0.9^(2i) is below 1e-20 from i = 219 on.
  @Test
  void forgetsAPowerThatMovesNoLimit() {
    double[] values = new double[230];
    List<ChartState> states = states(new Ewma(0.1, 2.9), new ControlLimits(0, 1, false), values);
    assertThat(states.get(217).ewma().power()).isPositive();
    assertThat(states.get(218).ewma().power()).isZero();
  }

  @ParameterizedTest
  @ValueSource(
      doubles = {
        0,
        -0.1,
        0.0009999999999999998,
        1.0000000000000002,
        Double.NaN,
        Double.POSITIVE_INFINITY
      })
  void refusesAnImpossibleWeight(double lambda) {
    assertThatThrownBy(() -> new Ewma(lambda, 3))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("must be from 0.001 to 1");
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -3, 6.000000000000001, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesAnImpossibleWidth(double width) {
    assertThatThrownBy(() -> new Ewma(0.1, width))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("must be above 0 and at most 6");
  }

  @ParameterizedTest
  @CsvSource({"NaN, 1, 0, 0", "0, -0.1, 0, 0", "0, 1.1, 0, 0", "0, NaN, 0, 0", "0, 1, 0, 2"})
  void refusesAStoredStateOutOfRange(double average, double power, int sameSide, int signal) {
    assertThatThrownBy(() -> new EwmaState(average, power, sameSide, signal, null))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Evaluate the stream again");
  }
}
