package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.testing.ChemistryReference;

class BudgetTest {

  // JCGM 100:2008, G.4.1: relative uncertainties in percent, nu = n - 1.
  @Test
  void reproducesTheWelchSatterthwaiteExampleOfTheGuide() {
    JsonNode example = ChemistryReference.entry("welchSatterthwaite");
    List<Contribution> contributions = new ArrayList<>();
    for (int i = 0; i < example.required("relativeU").size(); i++) {
      contributions.add(
          new Contribution(
              "input " + i,
              example.required("relativeU").get(i).doubleValue(),
              example.required("n").get(i).doubleValue() - 1));
    }

    Budget budget = new Budget(contributions);

    assertThat(budget.standardUncertainty()).isCloseTo(published(example, "uc"), within(0.005));
    assertThat(budget.effectiveDegreesOfFreedom())
        .isCloseTo(published(example, "nuEff"), within(0.05));
    assertThat(budget.coverageFactor()).isCloseTo(published(example, "t95"), within(0.005));
    assertThat(budget.expandedUncertainty()).isCloseTo(published(example, "U95"), within(0.05));
  }

  // EURACHEM/CITAC QUAM:2012, example A2: each input adds c u(x) / x, as c is a product of powers.
  @Test
  void reproducesTheTitrantExampleOfQuam() {
    JsonNode example = ChemistryReference.entry("quamA2");
    double c = published(example.required("unrounded"), "c");
    JsonNode inputs = example.required("inputs");
    List<Contribution> contributions =
        Stream.of("R", "m", "P", "M", "V")
            .map(name -> relative(name, inputs.required(name), c))
            .toList();

    Budget budget = new Budget(contributions);

    assertThat(budget.standardUncertainty())
        .isCloseTo(published(example.required("published"), "u"), within(0.000005));
    assertThat(budget.contributions())
        .extracting(Contribution::source)
        .containsExactly("V", "R", "m", "P", "M");
  }

  @Test
  void reproducesTheTitrantExampleOfQuamFromItsUnroundedContributions() {
    JsonNode unrounded = ChemistryReference.entry("quamA2").required("unrounded");
    List<Contribution> contributions = new ArrayList<>();
    unrounded
        .required("contributions")
        .properties()
        .forEach(
            each -> contributions.add(Contribution.of(each.getKey(), each.getValue().asDouble())));

    assertThat(new Budget(contributions).standardUncertainty())
        .isCloseTo(published(unrounded, "u"), within(1e-9));
  }

  // Two-sided 95 % points of Student's t (any table, from memory).
  @ParameterizedTest
  @CsvSource({"1, 12.706", "2, 4.303", "5, 2.571", "10, 2.228", "30, 2.042", "120, 1.980"})
  void coversByStudentsT(double degreesOfFreedom, double factor) {
    Budget budget = new Budget(List.of(new Contribution("repeatability", 3, degreesOfFreedom)));
    assertThat(budget.effectiveDegreesOfFreedom()).isCloseTo(degreesOfFreedom, within(1e-9));
    assertThat(budget.coverageFactor()).isCloseTo(factor, within(0.0005));
  }

  @Test
  void coversByTheNormalDistributionWhereNothingWasFoundFromASeries() {
    Budget budget = new Budget(List.of(Contribution.of("end point", 3)));
    assertThat(budget.effectiveDegreesOfFreedom()).isInfinite();
    // The normal quantile for 0.975 (any table, from memory).
    assertThat(budget.coverageFactor()).isCloseTo(1.959963984540054, within(1e-12));
    assertThat(budget.expandedUncertainty()).isCloseTo(3 * 1.959963984540054, within(1e-11));
  }

  // Computed: t = z + (z^3 + z) / (4 nu) + O(1 / nu^2), z = 1.959963984540054; t itself below 1e5.
  @ParameterizedTest
  @CsvSource({"3e4", "99999", "100000", "1e9", "1e12"})
  void fallsSmoothlyToTheNormalFactor(double degreesOfFreedom) {
    double z = 1.959963984540054;
    double expected = z + (z * z * z + z) / (4 * degreesOfFreedom);
    Budget budget = new Budget(List.of(new Contribution("repeatability", 1, degreesOfFreedom)));
    assertThat(budget.coverageFactor()).isCloseTo(expected, within(1e-8));
  }

  @Test
  void takesAResultAsExactWhereEveryContributionIsZero() {
    Contribution none = new Contribution("titrant normality", 0, 5);
    Budget budget = new Budget(List.of(none, Contribution.of("end point", 0)));
    assertThat(budget.standardUncertainty()).isZero();
    assertThat(budget.expandedUncertainty()).isZero();
    assertThat(budget.effectiveDegreesOfFreedom()).isInfinite();
    assertThat(budget.share(none)).isZero();
  }

  @Test
  void refusesToBeEmpty() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Budget(List.of()))
        .withMessage("An uncertainty budget needs at least one contribution.");
  }

  @Test
  void rejectsWhatComesToNoFiniteUncertainty() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Budget(List.of(Contribution.of("titrant", 1e200))))
        .withMessage("The uncertainties are too large to be combined: check them and their units.");
  }

  @ParameterizedTest
  @MethodSource("budgets")
  void keepsTheLargestContributionFirst(Budget budget) {
    assertThat(budget.contributions())
        .extracting(Contribution::standardUncertainty)
        .isSortedAccordingTo((a, b) -> Double.compare(b, a));
  }

  @ParameterizedTest
  @MethodSource("budgets")
  void sharesOutTheWholeVariance(Budget budget) {
    double sum = budget.contributions().stream().mapToDouble(budget::share).sum();
    assertThat(sum).isCloseTo(1, within(1e-12));
  }

  @ParameterizedTest
  @MethodSource("budgets")
  void keepsItsDegreesOfFreedomInAnotherUnit(Budget budget) {
    Budget inAnotherUnit =
        new Budget(
            budget.contributions().stream()
                .map(
                    each ->
                        new Contribution(
                            each.source(),
                            each.standardUncertainty() * 1000,
                            each.degreesOfFreedom()))
                .toList());
    assertThat(inAnotherUnit.standardUncertainty())
        .isCloseTo(budget.standardUncertainty() * 1000, within(1e-9));
    assertThat(inAnotherUnit.effectiveDegreesOfFreedom())
        .isCloseTo(budget.effectiveDegreesOfFreedom(), within(1e-6));
  }

  // JCGM 100:2008, G.4.1, note 1: nu_eff is at most the sum of the nu_i.
  @ParameterizedTest
  @MethodSource("budgets")
  void hasAtMostTheDegreesOfFreedomOfAllTogether(Budget budget) {
    double[] each =
        budget.contributions().stream().mapToDouble(Contribution::degreesOfFreedom).toArray();
    assertThat(budget.effectiveDegreesOfFreedom())
        .isBetween(
            IntStream.range(0, each.length).mapToDouble(i -> each[i]).min().orElseThrow(),
            IntStream.range(0, each.length).mapToDouble(i -> each[i]).sum());
  }

  static Stream<Budget> budgets() {
    SplittableRandom random = new SplittableRandom(20260304);
    return Stream.generate(() -> randomBudget(random)).limit(50);
  }

  private static Budget randomBudget(SplittableRandom random) {
    return new Budget(
        IntStream.range(0, random.nextInt(2, 8))
            .mapToObj(
                i ->
                    new Contribution(
                        "source " + i, random.nextDouble(0.01, 5), random.nextInt(1, 30)))
            .toList());
  }

  private static Contribution relative(String name, JsonNode valueAndUncertainty, double c) {
    double x = valueAndUncertainty.get(0).doubleValue();
    double u = valueAndUncertainty.get(1).doubleValue();
    return Contribution.of(name, c * u / x);
  }

  private static double published(JsonNode example, String name) {
    return example.required(name).doubleValue();
  }
}
