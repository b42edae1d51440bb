package org.sapotrace.runlength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.controlchart.RunRule.BEYOND_LIMITS;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

class SimulationTest {

  private static final Ewma EWMA = new Ewma(0.1, 2.9);

  static List<Published.Row> withTrends() {
    return Published.rows("arl_run_rules.csv").stream()
        .filter(row -> row.text("method").matches("simulation only|exact integral equation.*"))
        .toList();
  }

  static List<ChartDesign> computedExactly() {
    return List.of(
        design(Set.of(BEYOND_LIMITS), EWMA, null, false),
        design(Set.of(), EWMA, null, false),
        design(Set.of(BEYOND_LIMITS), new Ewma(0.4, 2.5), null, false),
        design(Set.of(), null, new Cusum(0.5, 4, 2), false),
        design(Set.of(), null, new Cusum(0.25, 5, 0), false),
        design(Set.of(BEYOND_LIMITS), null, null, true),
        design(Set.of(), null, null, true),
        design(RunRule.WESTERN_ELECTRIC_1956, null, null, false),
        design(Set.of(RunRule.EIGHT_OUTSIDE_1S, RunRule.FIFTEEN_WITHIN_1S), null, null, false));
  }

  // Source: arl_run_rules.csv; the first two rows are exact, the others simulated by other code.
  @ParameterizedTest
  @MethodSource("withTrends")
  void agreesOnTrendsAndAlternations(Published.Row row) {
    String shift = row.text("shift_sigma");
    AverageRunLength found =
        design(row.rules(), null, null, false)
            .averageRunLengths(shift.equals("any") ? 0.3 : Double.parseDouble(shift))
            .get(0);
    boolean exact = row.text("method").startsWith("exact");
    double error = Math.hypot(found.standardError(), exact ? 0 : row.number("sim_std_error"));
    assertThat(found.mean()).isCloseTo(row.number("ARL"), within(4 * error));
  }

  @ParameterizedTest
  @MethodSource("computedExactly")
  void agreesWithWhatIsComputedExactly(ChartDesign design) {
    double[] shifts = {0, 0.5, 1, 2};
    List<AverageRunLength> exact = design.averageRunLengths(shifts);
    List<AverageRunLength> simulated = Simulation.of(design, shifts);
    for (int i = 0; i < shifts.length; i++) {
      assertThat(simulated.get(i).mean())
          .as("shift %s", shifts[i])
          .isCloseTo(exact.get(i).mean(), within(4 * simulated.get(i).standardError()));
    }
  }

  @Test
  void errsByOnePerCentWhereItMay() {
    AverageRunLength run =
        Simulation.of(design(Set.of(BEYOND_LIMITS), EWMA, null, false), 1).get(0);
    assertThat(run.standardError() / run.mean()).isBetween(0.005, 0.01);
    assertThat(run.method()).isEqualTo(RunLengthMethod.SIMULATION);
  }

  @Test
  void answersTheSameEachTimeAndKeepsTheOrderOfTheShifts() {
    ChartDesign design = design(Set.of(RunRule.SIX_TRENDING), EWMA, new Cusum(0.5, 5, 0), true);
    List<AverageRunLength> runs = design.averageRunLengths(2, 0, 1);
    assertThat(runs).isEqualTo(design.averageRunLengths(2, 0, 1));
    assertThat(runs).extracting(AverageRunLength::shift).containsExactly(2.0, 0.0, 1.0);
    assertThat(runs.get(1).mean()).isGreaterThan(runs.get(2).mean());
  }

  @Test
  void refusesWhatSignalsTooRarely() {
    ChartDesign design = design(Set.of(), new Ewma(0.1, 6), new Cusum(2, 15, 0), false);
    assertThatThrownBy(() -> design.averageRunLengths(0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("signals too rarely for that: 0 times in 12000000 results")
        .hasMessageContaining("Ask for its parts one by one");
  }

  private static ChartDesign design(
      Set<RunRule> rules, @Nullable Ewma ewma, @Nullable Cusum cusum, boolean movingRange) {
    return new ChartDesign(new Detectors(rules, ewma, cusum), movingRange);
  }
}
