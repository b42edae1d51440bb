package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.SplittableRandom;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
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

  // JCGM 101:2008, 7.7.2: of M = 20 000 sorted trials, q = 19 000 and r = 500, so that the interval
  // lies between the 500th and the 19 500th. With the numbers 1 to 10 000 drawn twice, the k-th is
  // k/2.
  @Test
  void takesTheOrderStatisticsOfTheInterval() {
    AtomicInteger drawn = new AtomicInteger();
    MonteCarlo found = MonteCarlo.of(random -> drawn.getAndIncrement() % 10_000 + 1, SEED);
    assertThat(found.trials()).isEqualTo(20_000);
    assertThat(found.lower()).isEqualTo(250);
    assertThat(found.upper()).isEqualTo(9750);
  }

  // Computed: the end of a normal 95 % interval found in n trials has the standard deviation 2.67 u
  // / sqrt(n), and twice that comes to 1 % of 1.96 u after 74 000 trials, whatever u is.
  @ParameterizedTest
  @ValueSource(doubles = {1, 1.01, 2, 4.99, 5, 9.99, 1e-9, 1e9})
  void settlesAtAnyLeadingDigit(double u) {
    MonteCarlo found = MonteCarlo.of(random -> u * random.nextGaussian(), SEED);
    assertThat(found.isStable()).isTrue();
    assertThat(found.trials()).isBetween(20_000, 200_000);
    assertThat(found.upper()).isCloseTo(1.96 * u, within(0.03 * u));
  }

  @ParameterizedTest
  @CsvSource({"0, 20000", "35000, 30000", "900000, 500000"})
  void drawsNoMoreTrialsThanItMay(int most, int expected) {
    MonteCarlo found =
        MonteCarlo.of(random -> Math.tan(Math.PI * (random.nextDouble() - 0.5)), SEED, most);
    assertThat(found.trials()).isEqualTo(expected);
    assertThat(found.isStable()).isFalse();
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
