package org.sapotrace.runlength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.controlchart.RunRule.BEYOND_LIMITS;
import static org.sapotrace.runlength.RunLengthMethod.INTEGRAL_EQUATION;
import static org.sapotrace.runlength.RunLengthMethod.MARKOV_CHAIN;
import static org.sapotrace.runlength.RunLengthMethod.SIMULATION;

import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

class ChartDesignTest {

  private static final Set<RunRule> NONE = Set.of();
  private static final Set<RunRule> LIMITS = Set.of(BEYOND_LIMITS);
  private static final Set<RunRule> OTHERS = Set.of(BEYOND_LIMITS, RunRule.NINE_SAME_SIDE);
  private static final Ewma EWMA = new Ewma(0.1, 2);
  private static final Cusum CUSUM = new Cusum(0.5, 2, 0);

  @Test
  void isExactWhereverItCanBe() {
    assertThat(method(OTHERS, null, null, false)).isEqualTo(MARKOV_CHAIN);
    assertThat(method(LIMITS, null, null, false)).isEqualTo(MARKOV_CHAIN);
    assertThat(method(LIMITS, null, null, true)).isEqualTo(INTEGRAL_EQUATION);
    assertThat(method(NONE, null, null, true)).isEqualTo(INTEGRAL_EQUATION);
    assertThat(method(NONE, EWMA, null, false)).isEqualTo(INTEGRAL_EQUATION);
    assertThat(method(LIMITS, EWMA, null, false)).isEqualTo(INTEGRAL_EQUATION);
    assertThat(method(NONE, new Ewma(0.02, 2), null, false)).isEqualTo(INTEGRAL_EQUATION);
    assertThat(method(NONE, null, CUSUM, false)).isEqualTo(INTEGRAL_EQUATION);
  }

  @Test
  void simulatesAllElse() {
    assertThat(method(RunRule.NELSON_1984, null, null, false)).isEqualTo(SIMULATION);
    assertThat(method(Set.of(RunRule.FOURTEEN_ALTERNATING), null, null, false))
        .isEqualTo(SIMULATION);
    assertThat(method(OTHERS, null, null, true)).isEqualTo(SIMULATION);
    assertThat(method(OTHERS, EWMA, null, false)).isEqualTo(SIMULATION);
    assertThat(method(NONE, EWMA, null, true)).isEqualTo(SIMULATION);
    assertThat(method(NONE, new Ewma(Math.nextDown(0.02), 2), null, false)).isEqualTo(SIMULATION);
    assertThat(method(NONE, EWMA, CUSUM, false)).isEqualTo(SIMULATION);
    assertThat(method(LIMITS, null, CUSUM, false)).isEqualTo(SIMULATION);
    assertThat(method(NONE, null, CUSUM, true)).isEqualTo(SIMULATION);
  }

  @Test
  void refusesAChartThatSignalsNothing() {
    assertThatThrownBy(() -> design(NONE, null, null, false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Nothing here raises a signal. Name at least one of rules, ewma, cusum and movingRange.");
  }

  @Test
  void refusesACusumWiderThanAnyoneNeeds() {
    design(NONE, null, new Cusum(3, 20, 20), false);
    assertThatThrownBy(() -> design(NONE, null, new Cusum(Math.nextUp(3.0), 5, 0), false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("at most 3 and 20 standard deviations");
    assertThatThrownBy(() -> design(NONE, null, new Cusum(0.5, Math.nextUp(20.0), 0), false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("practically never signals");
  }

  @Test
  void countsFalseAlarmsOfAYear() {
    // Source: 365.25 days, four results a day, one alarm in 370.4 results.
    assertThat(AverageRunLength.signalsPerYear(370.4, 4)).isCloseTo(3.944384, within(1e-6));
    assertThat(Wanted.inControl(3.944384, 4)).isCloseTo(370.4, within(1e-4));
  }

  private static RunLengthMethod method(
      Set<RunRule> rules, @Nullable Ewma ewma, @Nullable Cusum cusum, boolean movingRange) {
    AverageRunLength run = design(rules, ewma, cusum, movingRange).averageRunLengths(1).get(0);
    assertThat(run.standardError() == null).isEqualTo(run.method() != SIMULATION);
    return run.method();
  }

  private static ChartDesign design(
      Set<RunRule> rules, @Nullable Ewma ewma, @Nullable Cusum cusum, boolean movingRange) {
    return new ChartDesign(new Detectors(rules, ewma, cusum), movingRange);
  }
}
