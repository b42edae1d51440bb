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

class CusumTest {

  private static final ControlLimits UNIT = new ControlLimits(0, 1, false);

  private static Detectors alone(Cusum cusum) {
    return new Detectors(EnumSet.noneOf(RunRule.class), null, cusum);
  }

  private static List<ChartState> states(Cusum cusum, ControlLimits limits, double... values) {
    List<ChartState> states = new ArrayList<>();
    ChartState state = ChartState.START;
    for (double x : values) {
      state = state.next(x, limits, alone(cusum));
      states.add(state);
    }
    return states;
  }

  // Montgomery, Introduction to Statistical Quality Control, 30 observations with mean 10 and
  // sigma 1, k 0.5, h 5; worked-examples.json M5.
  @Test
  void followsTheTextbook() {
    JsonNode expected = Published.example("M5");
    ControlLimits limits = new ControlLimits(10, 1, false);
    List<ChartState> states = states(Cusum.USUAL, limits, Published.series("montgomery_cusum"));
    List<Integer> signals = new ArrayList<>();
    for (int i = 0; i < 30; i++) {
      CusumState sums = states.get(i).cusum();
      assertThat(sums.high().value())
          .isCloseTo(expected.at("/Cplus/" + i).asDouble(), within(1e-9));
      assertThat(sums.low().value())
          .isCloseTo(expected.at("/Cminus/" + i).asDouble(), within(1e-9));
      assertThat(sums.high().length()).isEqualTo(expected.at("/Nplus/" + i).asInt());
      assertThat(sums.low().length()).isEqualTo(expected.at("/Nminus/" + i).asInt());
      if (states.get(i).holding(limits, alone(Cusum.USUAL)).contains(DriftRule.CUSUM_HIGH)) {
        signals.add(i + 1);
      }
    }
    assertThat(signals).containsExactly(29, 30);
    // The shift is put after result 22, as the textbook does.
    assertThat(states.get(28).window(DriftRule.CUSUM_HIGH)).isEqualTo(29 - 22);
  }

  // Montgomery and Runger, Applied Statistics and Probability for Engineers, Table 16-8: mean 99,
  // K 1, H 10 in the unit of the results, sigma 2; worked-examples.json M8.
  @Test
  void followsTheConcentrationsOfTheTextbook() {
    JsonNode expected = Published.example("M8");
    ControlLimits limits = new ControlLimits(99, 2, false);
    List<ChartState> states = states(Cusum.USUAL, limits, Published.series("aspe_concentration"));
    for (int i = 0; i < 20; i++) {
      CusumState sums = states.get(i).cusum();
      assertThat(2 * sums.high().value())
          .isCloseTo(expected.at("/Cplus/" + i).asDouble(), within(1e-9));
      assertThat(2 * sums.low().value())
          .isCloseTo(expected.at("/Cminus/" + i).asDouble(), within(1e-9));
    }
  }

  // computed: both sums start at 2.5; a first result of 1 makes 3 and 1, lengths count from there.
  @Test
  void startsBothSumsAhead() {
    Cusum cusum = new Cusum(0.5, 5, 2.5);
    CusumState first = states(cusum, UNIT, 1).get(0).cusum();
    assertThat(first.high()).isEqualTo(new CusumState.Sum(3, 1, false));
    assertThat(first.low()).isEqualTo(new CusumState.Sum(1, 1, false));
  }

  @Test
  void doesNotSignalOnItsDecisionValue() {
    Cusum cusum = new Cusum(0.5, 5, 0);
    assertThat(states(cusum, UNIT, 5.5).get(0).holding(UNIT, alone(cusum))).isEmpty();
    assertThat(states(cusum, UNIT, -5.75).get(0).holding(UNIT, alone(cusum)))
        .containsExactly(DriftRule.CUSUM_LOW);
  }

  // computed: 5.5, 2.5 (half of 5 is not under half), 2.25.
  @Test
  void signalsUntilItIsBackUnderHalfItsDecisionValue() {
    Cusum cusum = new Cusum(0.5, 5, 0);
    List<ChartState> states = states(cusum, UNIT, 6, -2.5, 0.25);
    assertThat(states)
        .extracting(state -> state.signalling(alone(cusum)).containsKey(DriftRule.CUSUM_HIGH))
        .containsExactly(true, true, false);
    assertThat(states.get(1).holding(UNIT, alone(cusum))).isEmpty();
    assertThat(states.get(2).cusum().high().value()).isEqualTo(2.25);
  }

  @Test
  void signalsUpwardsAndDownwardsAtOnceWhereOneOutweighsTheOther() {
    Cusum cusum = new Cusum(0.5, 5, 0);
    ChartState state = states(cusum, UNIT, 30, -10).get(1);
    assertThat(state.signalling(alone(cusum)))
        .containsExactly(
            org.assertj.core.api.Assertions.entry(DriftRule.CUSUM_HIGH, Side.HIGH),
            org.assertj.core.api.Assertions.entry(DriftRule.CUSUM_LOW, Side.LOW));
  }

  @Test
  void staysFiniteWhateverIsRecorded() {
    ControlLimits narrow = new ControlLimits(0, 1e-300, false);
    CusumState sums = states(Cusum.USUAL, narrow, 1e100, 1e100, -1e100).get(2).cusum();
    assertThat(sums.high().value()).isBetween(0.0, 1e100);
    assertThat(sums.low().value()).isBetween(0.0, 1e100);
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesAnImpossibleReference(double reference) {
    assertThatThrownBy(() -> new Cusum(reference, 5, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("reference value");
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -5, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesAnImpossibleDecisionValue(double decision) {
    assertThatThrownBy(() -> new Cusum(0.5, decision, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("decision value");
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, 5.000000000000001, Double.NaN})
  void refusesAHeadStartBeyondItsDecisionValue(double headStart) {
    assertThatThrownBy(() -> new Cusum(0.5, 5, headStart))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("from 0 to its decision value of 5");
  }

  @ParameterizedTest
  @CsvSource({"-1, 0", "NaN, 0", "Infinity, 0", "1, -1"})
  void refusesAStoredSumOutOfRange(double value, int length) {
    assertThatThrownBy(() -> new CusumState.Sum(value, length, false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Evaluate the stream again");
  }
}
