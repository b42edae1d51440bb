package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.ChemistryReference;

class MonteCarloTest {

  private static final long SEED = 20260309;

  // JCGM 101:2008, 9.2.3: the sum of four rectangular inputs with standard deviation 1.
  @Test
  void findsTheIntervalOfFourRectangularInputs() {
    JsonNode example = ChemistryReference.entry("monteCarlo").get(0);
    JsonNode interval = example.required("interval95");

    MonteCarlo found = MonteCarlo.of(MonteCarloTest::fourRectangular, SEED);

    assertThat(found.isStable()).isTrue();
    assertThat(found.value()).isCloseTo(0, within(0.05));
    assertThat(found.standardUncertainty())
        .isCloseTo(example.required("u").doubleValue(), within(0.05));
    assertThat(found.lower()).isCloseTo(interval.get(0).doubleValue(), within(0.05));
    assertThat(found.upper()).isCloseTo(interval.get(1).doubleValue(), within(0.05));
  }

  @Test
  void givesTheSameForTheSameSeed() {
    MonteCarlo once = MonteCarlo.of(MonteCarloTest::fourRectangular, SEED);
    assertThat(MonteCarlo.of(MonteCarloTest::fourRectangular, SEED)).isEqualTo(once);
    assertThat(MonteCarlo.of(MonteCarloTest::fourRectangular, SEED + 1)).isNotEqualTo(once);
  }

  // JCGM 101:2008, 9.2.2: the budget gives 1.96 x 2 = 3.92 against 3.88, 1 % of it.
  @Test
  void agreesWithABudgetWhoseResultIsNearlyNormal() {
    Budget budget = new Budget(List.of(Contribution.of("sum", 2)));
    MonteCarlo found = MonteCarlo.of(MonteCarloTest::fourRectangular, SEED);
    assertThat(found.distanceFrom(0, budget)).isCloseTo(0.01, within(0.01));
    assertThat(found.disagreesWith(0, budget)).isFalse();
    assertThat(found.caution(0, budget)).isEmpty();
  }

  // A rectangular result with standard deviation 1: 95 % of it lies within 0.95 sqrt(3) = 1.645 and
  // not 1.960, a distance of 16 %.
  @Test
  void disagreesWithABudgetWhoseResultIsRectangular() {
    Budget budget = new Budget(List.of(Contribution.of("tolerance", 1)));
    MonteCarlo found = MonteCarlo.of(MonteCarloTest::rectangular, SEED);
    assertThat(found.upper()).isCloseTo(1.645, within(0.02));
    assertThat(found.distanceFrom(0, budget)).isCloseTo(0.16, within(0.02));
    assertThat(found.disagreesWith(0, budget)).isTrue();
    assertThat(found.caution(0, budget))
        .hasValueSatisfying(
            caution ->
                assertThat(caution)
                    .contains("disagree by more than 5 %")
                    .contains("from " + Rounding.of(found.lower()) + " to "));
  }

  @Test
  void isExactWhereNothingErrs() {
    MonteCarlo found = MonteCarlo.of(random -> 42, SEED);
    assertThat(found).isEqualTo(new MonteCarlo(42, 0, 42, 42, 20_000, true));
    Budget exact = new Budget(List.of(Contribution.of("nothing", 0)));
    assertThat(found.disagreesWith(42, exact)).isFalse();
  }

  // Cauchy: its mean and standard deviation do not exist, so no number of trials settles them.
  @Test
  void endsWithoutSettlingWhereThereIsNoMean() {
    MonteCarlo found =
        MonteCarlo.of(random -> Math.tan(Math.PI * (random.nextDouble() - 0.5)), SEED);
    assertThat(found.isStable()).isFalse();
    assertThat(found.trials()).isEqualTo(500_000);
    // The ends of its 95 % interval do exist: tan(0.475 pi).
    assertThat(found.upper()).isCloseTo(12.706, within(0.3));
  }

  private static double fourRectangular(SplittableRandom random) {
    return rectangular(random) + rectangular(random) + rectangular(random) + rectangular(random);
  }

  private static double rectangular(SplittableRandom random) {
    return Math.sqrt(3) * (2 * random.nextDouble() - 1);
  }
}
