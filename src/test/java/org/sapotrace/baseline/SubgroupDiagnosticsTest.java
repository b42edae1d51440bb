package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Stream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.Subgroup;

/** What a baseline of subgroups says about itself, and what is advised on it. */
class SubgroupDiagnosticsTest {

  private static final NormalDistribution NORMAL = new NormalDistribution();

  /** Against simulated baselines, each with its exact rate; 1 % is 3 standard errors or more. */
  @ParameterizedTest
  @CsvSource({
    "10, 2, RANGE",
    "25, 5, RANGE",
    "10, 5, STANDARD_DEVIATION",
    "25, 2, STANDARD_DEVIATION",
    "40, 9, STANDARD_DEVIATION"
  })
  void falseAlarmsAgreeWithSimulation(int m, int n, Dispersion dispersion) {
    SplittableRandom random = new SplittableRandom(m);
    int baselines = 20_000;
    double sum = 0;
    for (int i = 0; i < baselines; i++) {
      ControlLimits limits =
          ControlLimits.fromSubgroups(
              normal(random, Collections.nCopies(m, n), j -> 0), dispersion, false);
      double root = Math.sqrt(n);
      sum +=
          NORMAL.cumulativeProbability(-root * limits.ofMeans(n).upper())
              + NORMAL.cumulativeProbability(root * limits.ofMeans(n).below(3));
    }
    double simulated = sum / baselines;
    assertThat(FalseAlarms.rate(Collections.nCopies(m, n), dispersion))
        .isCloseTo(simulated, within(0.03 * simulated));
  }

  // NIST Statistical Reference Datasets, analysis of variance, SiRstv (data from memory, checked by
  // the certified F); the p-value by the distribution of F, x^10 (11 - 10 x) with x = 20/(20 + 4
  // F).
  @Test
  void reachesTheCertifiedAnalysisOfVariance() {
    Baseline baseline =
        Baseline.ofSubgroups(
            List.of(
                List.of(
                    of(196.3052, 196.1240, 196.1890, 196.2569, 196.3403),
                    of(196.3042, 196.3825, 196.1669, 196.3257, 196.0422),
                    of(196.1303, 196.2005, 196.2889, 196.0343, 196.1811),
                    of(196.2795, 196.1748, 196.1494, 196.1485, 195.9885),
                    of(196.2119, 196.1051, 196.1850, 196.0052, 196.2090))));
    Subgrouping found = Objects.requireNonNull(Subgrouping.of(baseline));
    double f = 1.18046237440255;
    double x = 20 / (20 + 4 * f);
    assertThat(found.ratio()).isCloseTo(Math.sqrt(f), within(1e-9));
    assertThat(found.pValue()).isCloseTo(Math.pow(x, 10) * (11 - 10 * x), within(1e-9));
    assertThat(found.sizes()).containsExactly(5, 5, 5, 5, 5);
  }

  @Test
  void saysLittleOfSubgroupsInOrder() {
    assertThat(advice(unequal(25, i -> 0), Scale.LINEAR))
        .hasSize(1)
        .first()
        .asString()
        .startsWith(
            "Adopt again at 30 subgroups and at 100: from 25 subgroups by their standard deviations, ")
        .endsWith(" of 1000 means in control fall beyond the limits on average, instead of 2.7.");
  }

  /** As where each subgroup is one sample, titrated several times. */
  @Test
  void findsWhatDiffersBetweenSubgroups() {
    SplittableRandom random = new SplittableRandom(12);
    double[] levels = random.doubles(30, -4, 4).toArray();
    assertThat(advice(unequal(30, i -> levels[i]), Scale.LINEAR))
        .anyMatch(
            s ->
                s.startsWith("Find what differs from one subgroup to the next")
                    && s.contains("analysis of variance"));
  }

  @Test
  void looksAtWhatCarriesOverInWordsOfItsOwn() {
    List<String> advice = advice(unequal(60, i -> 2 * Math.sin(i / 6.0)), Scale.LINEAR);
    assertThat(advice)
        .anyMatch(s -> s.startsWith("Find what carries over from one subgroup to the next"))
        .noneMatch(s -> s.contains("moving range"));
  }

  // By hand: s/c4(3) is one step/0.886227 in each; D2(3) = 4.357673 (constants.csv), so that the
  // limit is 4.917 steps and 0 to 4 are possible. Four would be too few of three values.
  @Test
  void countsTheRangesOfItsSmallestSubgroups() {
    Baseline baseline = Baseline.ofSubgroups(List.of(Collections.nCopies(9, of(10.5, 11, 11.5))));
    Resolution found = Objects.requireNonNull(Resolution.of(baseline));
    assertThat(found).isEqualTo(new Resolution(0.5, 5, 3));
    assertThat(found.adequate()).isTrue();
    assertThat(new Resolution(0.5, 4, 3).adequate()).isFalse();
    assertThat(new Resolution(0.5, 4, 2).adequate()).isTrue();
  }

  // By hand: half of the subgroups have no range, of the others R is 1; s/c4(3) = 0.577/0.886, on
  // average 0.326, times 4.357673: 1.42, so that 0 and 1 are possible.
  @Test
  void callsForFinerStepsOfValuesWithinSubgroups() {
    List<Subgroup> subgroups = new ArrayList<>();
    for (int i = 0; i < 10; i++) {
      subgroups.add(of(30, 30, 30));
      subgroups.add(of(30, 31, 30));
    }
    Baseline baseline = Baseline.ofSubgroups(List.of(subgroups));
    Diagnostics found = diagnose(baseline, Dispersion.STANDARD_DEVIATION);
    assertThat(found.distinctValues()).isEqualTo(2);
    assertThat(Objects.requireNonNull(found.resolution()).possibleRanges()).isEqualTo(2);
    assertThat(
            Advice.of(found, Dispersion.STANDARD_DEVIATION, Scale.LINEAR, true, i -> "batch " + i))
        .anyMatch(s -> s.contains("no more than 2 values of the range are possible"));
  }

  @Test
  void countsValuesThatAreNotPositive() {
    List<Subgroup> subgroups = new ArrayList<>(unequal(12, i -> 20).subgroups());
    subgroups.set(3, of(0, -1, 5));
    Diagnostics found =
        diagnose(Baseline.ofSubgroups(List.of(subgroups)), Dispersion.STANDARD_DEVIATION);
    int values = subgroups.stream().mapToInt(Subgroup::size).sum();
    assertThat(found.notPositive()).isEqualTo(2);
    assertThat(
            Advice.of(found, Dispersion.STANDARD_DEVIATION, Scale.LINEAR, true, i -> "batch " + i))
        .anyMatch(s -> s.startsWith("Check the blank: 2 of %d values are".formatted(values)));
  }

  // By hand, centre 0 and sigma 1: the mean 1.6 lies beyond 3/√4 and within 3/√1.
  @Test
  void holdsRulesByLimitsOfTheirOwnSize() {
    Baseline baseline =
        Baseline.ofSubgroups(List.of(List.of(of(1.6), of(1.6, 1.6, 1.6, 1.6), of(0, 0))));
    assertThat(
            InsideSignal.of(
                baseline,
                new ControlLimits(0, 1, false),
                new Detectors(Set.of(RunRule.BEYOND_LIMITS), null, null)))
        .containsExactly(new InsideSignal(RunRule.BEYOND_LIMITS, Side.HIGH, List.of(1)));
  }

  /** The means of unequal subgroups scatter unequally, which says nothing against their shape. */
  @Test
  void standardisesMeansBeforeItLooksAtTheirShape() {
    SplittableRandom random = new SplittableRandom(4);
    List<Integer> sizes = random.ints(200, 0, 2).mapToObj(i -> i == 0 ? 1 : 64).toList();
    Baseline baseline = normal(random, sizes, i -> 0);
    assertThat(AndersonDarling.of(baseline.values()).pValue()).isLessThan(1e-6);
    Diagnostics found = diagnose(baseline, Dispersion.STANDARD_DEVIATION);
    assertThat(Objects.requireNonNull(found.normality()).pValue()).isGreaterThan(0.05);
  }

  private static Subgroup of(double... values) {
    return new Subgroup(Arrays.stream(values).boxed().toList());
  }

  private static Baseline unequal(int m, IntToDoubleFunction level) {
    SplittableRandom random = new SplittableRandom(m);
    return normal(random, Stream.iterate(2, n -> n % 5 + 1).limit(m).toList(), level);
  }

  private static Baseline normal(
      SplittableRandom random, List<Integer> sizes, IntToDoubleFunction level) {
    List<Subgroup> subgroups = new ArrayList<>();
    for (int i = 0; i < sizes.size(); i++) {
      double mean = level.applyAsDouble(i);
      subgroups.add(
          new Subgroup(
              Stream.generate(() -> mean + random.nextGaussian()).limit(sizes.get(i)).toList()));
    }
    return Baseline.ofSubgroups(List.of(subgroups));
  }

  private static List<String> advice(Baseline baseline, Scale scale) {
    return Advice.of(
        diagnose(baseline, Dispersion.STANDARD_DEVIATION),
        Dispersion.STANDARD_DEVIATION,
        scale,
        false,
        i -> "batch " + i);
  }

  private static Diagnostics diagnose(Baseline baseline, Dispersion dispersion) {
    ControlLimits limits = ControlLimits.fromSubgroups(baseline, dispersion, false);
    return Diagnostics.of(
        baseline, baseline, InsideSignal.of(baseline, limits, new Detectors(Set.of(), null, null)));
  }
}
