package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class RunStateTest {

  private static final Set<RunRule> ALL = EnumSet.allOf(RunRule.class);
  private static final ControlLimits UNIT = new ControlLimits(0, 1, false);
  private static final ObjectMapper JSON = new ObjectMapper();

  static Stream<Arguments> vectors() {
    return StreamSupport.stream(
            Published.json("run_rule_vectors.json").path("vectors").spliterator(), false)
        .map(
            vector ->
                Arguments.of(
                    vector.path("rule").asText() + ": " + vector.path("why").asText(), vector));
  }

  // Source: run_rule_vectors.json; the convention that each tests stands in its "why".
  @ParameterizedTest(name = "{0}")
  @MethodSource("vectors")
  void keepsTheConventions(String name, JsonNode vector) {
    RunRule rule = RunRule.named(vector.path("rule").asText());
    double[] z = JSON.convertValue(vector.path("z"), double[].class);
    JsonNode first = vector.path("first_signal");
    List<Integer> signals = signals(rule, z, UNIT);
    if (first.isNull()) {
      assertThat(signals).isEmpty();
    } else {
      assertThat(signals).first().isEqualTo(first.asInt());
    }
  }

  @Test
  void readsEveryVector() {
    assertThat(vectors()).hasSize(19);
  }

  // Source: worked-examples.json, entries R-*: every index (counted from 1) at which the rule's
  // condition holds, computed twice by independent code.
  @ParameterizedTest
  @CsvSource({
    "R-randn_known, randn",
    "R-nile_imr, nile",
    "R-nist_cusum_xbar, nist_cusum",
    "R-Michelso_imr, Michelso",
    "R-Lottery_imr, Lottery",
    "R-Lottery_sd, Lottery"
  })
  void findsEverySignalOfPublishedSeries(String id, String series) {
    JsonNode expected = Published.example(id);
    ControlLimits limits =
        new ControlLimits(
            expected.path("center").asDouble(), expected.path("sigma").asDouble(), false);
    double[] values = Published.series(series);
    for (RunRule rule : RunRule.values()) {
      JsonNode indices = expected.path("signals").path(rule.id());
      assertThat(indices.isArray()).as(rule.id()).isTrue();
      assertThat(signals(rule, values, limits))
          .as(rule.id())
          .containsExactly(JSON.convertValue(indices, Integer[].class));
    }
  }

  /** The indices, counted from 1, at which the rule's condition holds. */
  private static List<Integer> signals(RunRule rule, double[] values, ControlLimits limits) {
    List<Integer> signals = new ArrayList<>();
    RunState state = RunState.START;
    for (double x : values) {
      state = state.next(x, limits);
      if (state.holding(ALL).contains(rule)) {
        signals.add(state.count());
      }
    }
    return signals;
  }

  private static RunState after(ControlLimits limits, double... values) {
    RunState state = RunState.START;
    for (double x : values) {
      state = state.next(x, limits);
    }
    return state;
  }

  // 10.06 is the upper limit as computed, though (10.06 - 10) / 0.02 rounds to more than 3.
  @Test
  void comparesTheResultItselfWithTheLimit() {
    ControlLimits limits = new ControlLimits(10, 0.02, true);
    assertThat(limits.z(limits.upper())).isGreaterThan(3);
    assertThat(after(limits, limits.upper()).side(RunRule.BEYOND_LIMITS)).isNull();
  }

  @Test
  void countsOnlyWhatLiesBeyondALine() {
    ControlLimits limits = new ControlLimits(31.4, 2.7, true);
    double upper = limits.upper();
    double lower = limits.below(3);
    assertThat(after(limits, upper).side(RunRule.BEYOND_LIMITS)).isNull();
    assertThat(after(limits, Math.nextUp(upper)).side(RunRule.BEYOND_LIMITS)).isEqualTo(Side.HIGH);
    assertThat(after(limits, lower).side(RunRule.BEYOND_LIMITS)).isNull();
    assertThat(after(limits, Math.nextDown(lower)).side(RunRule.BEYOND_LIMITS)).isEqualTo(Side.LOW);

    double two = limits.above(2);
    double beyondTwo = Math.nextUp(two);
    assertThat(after(limits, beyondTwo, two).side(RunRule.TWO_OF_THREE_BEYOND_2S)).isNull();
    assertThat(after(limits, two, beyondTwo).side(RunRule.TWO_OF_THREE_BEYOND_2S)).isNull();
    assertThat(after(limits, beyondTwo, beyondTwo).side(RunRule.TWO_OF_THREE_BEYOND_2S))
        .isEqualTo(Side.HIGH);
  }

  @Test
  void takesAResultOnAOneSigmaLineForNeitherInsideNorOutside() {
    double in = Math.nextDown(1.0);
    double out = Math.nextUp(1.0);
    RunState within = after(UNIT, in, -in, in, -in, in, -in, in, -in, in, -in, in, -in, in, -in);
    assertThat(within.next(in, UNIT).side(RunRule.FIFTEEN_WITHIN_1S)).isEqualTo(Side.NONE);
    assertThat(within.next(1, UNIT).side(RunRule.FIFTEEN_WITHIN_1S)).isNull();
    RunState outside = after(UNIT, out, out, out, out, out, out, -out);
    assertThat(outside.next(out, UNIT).side(RunRule.EIGHT_OUTSIDE_1S)).isEqualTo(Side.NONE);
    assertThat(outside.next(1, UNIT).side(RunRule.EIGHT_OUTSIDE_1S)).isNull();
  }

  @Test
  void endsARunOnTheCentreLine() {
    RunState seven = after(UNIT, 0.1, 0.2, 0.1, 0.2, 0.1, 0.2, 0.1);
    assertThat(seven.next(Double.MIN_VALUE, UNIT).side(RunRule.EIGHT_SAME_SIDE))
        .isEqualTo(Side.HIGH);
    assertThat(seven.next(0, UNIT).sameSide()).isZero();
  }

  @Test
  void endsAnAlternationAtATieAndStartsOneThere() {
    RunState thirteen = after(UNIT, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1);
    assertThat(thirteen.next(2, UNIT).side(RunRule.FOURTEEN_ALTERNATING)).isEqualTo(Side.NONE);
    assertThat(thirteen.next(1, UNIT).turns()).isZero();
    RunState again = after(UNIT, 2, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2, 1, 2);
    assertThat(again.side(RunRule.FOURTEEN_ALTERNATING)).isNull();
    assertThat(again.next(1, UNIT).side(RunRule.FOURTEEN_ALTERNATING)).isEqualTo(Side.NONE);
  }

  @Test
  void hasNothingBeyondALowerLimitThatThereIsNot() {
    ControlLimits none = new ControlLimits(10, 5, true);
    assertThat(none.below(2)).isNull();
    RunState state = after(none, -30, -30);
    assertThat(state.holding(EnumSet.of(RunRule.BEYOND_LIMITS, RunRule.TWO_OF_THREE_BEYOND_2S)))
        .isEmpty();
    // The boundary one sigma below, at 5, is there.
    assertThat(after(none, 4, 4, 4, 4).side(RunRule.FOUR_OF_FIVE_BEYOND_1S)).isEqualTo(Side.LOW);
    ControlLimits allowed = new ControlLimits(10, 5, false);
    assertThat(after(allowed, -30, -30).side(RunRule.TWO_OF_THREE_BEYOND_2S)).isEqualTo(Side.LOW);
  }

  @Test
  void reportsOnlyTheRulesInUseInTheirDeclaredOrder() {
    RunState state = after(UNIT, 4, 5);
    assertThat(state.holding(ALL))
        .containsExactly(RunRule.BEYOND_LIMITS, RunRule.TWO_OF_THREE_BEYOND_2S);
    assertThat(state.holding(Set.of(RunRule.TWO_OF_THREE_BEYOND_2S, RunRule.SIX_TRENDING)))
        .containsExactly(RunRule.TWO_OF_THREE_BEYOND_2S);
    assertThat(state.holding(Set.of())).isEmpty();
  }

  @Test
  void holdsNothingBeforeTheFirstResult() {
    assertThat(RunState.START.holding(ALL)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void refusesResultsThatAreNotFinite(double x) {
    assertThatThrownBy(() -> RunState.START.next(x, UNIT))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("A control chart takes finite numbers only, not " + x + ".");
  }

  static Stream<Arguments> impossibleStates() {
    RunState ok = after(UNIT, 1.5);
    assertThat(ok).isEqualTo(new RunState(1, 1.5, 0, 1, 0, 0, 0, 1, 0, 0, 0));
    return Stream.of(
        Arguments.of(-1, 0.0, 0, 0, 0),
        Arguments.of(1, Double.NaN, 0, 0, 0),
        Arguments.of(1, 1.5, 2, 0, 0),
        Arguments.of(1, 1.5, Integer.MIN_VALUE, 0, 0),
        Arguments.of(1, 1.5, 0, 256, 0),
        Arguments.of(1, 1.5, 0, 1, 1));
  }

  @ParameterizedTest
  @MethodSource("impossibleStates")
  void refusesAStoredStateThatContradictsItself(
      int count, double last, int beyond, int above1, int below1) {
    assertThatThrownBy(() -> new RunState(count, last, beyond, 0, 0, 0, 0, above1, below1, 0, 0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Evaluate the stream again");
  }
}
