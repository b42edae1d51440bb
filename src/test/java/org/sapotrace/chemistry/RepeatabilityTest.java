package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.sapotrace.chemistry.Repeatability.Pooled;
import org.sapotrace.testing.ChemistryReference;

class RepeatabilityTest {

  private static final List<List<Double>> COAL =
      sets(ChemistryReference.entry("precisionStudy").required("labs"));
  private static final List<List<Double>> SOAP =
      sets(ChemistryReference.entry("repeatability").required("pairs"));

  // ISO 5725-2:1994, annex B.1, sulfur in coal, level 1: s_r = 0.015, whatever the means of the
  // laboratories.
  @Test
  void isThePublishedOneWhereScatterHasNoLevel() {
    Pooled pooled = Repeatability.pooled(COAL);
    assertThat(pooled.repeatability().isProportional()).isFalse();
    assertThat(pooled.repeatability().standardDeviation()).isCloseTo(0.015, within(5e-4));
    assertThat(pooled.repeatability().at(0.7))
        .isEqualTo(pooled.repeatability().standardDeviation());
    assertThat(pooled.repeatability().degreesOfFreedom())
        .isEqualTo(COAL.stream().mapToInt(lab -> lab.size() - 1).sum());
    assertThat(pooled.sets()).isEqualTo(8);
  }

  // NumPy: sqrt(mean((std(pair, ddof=1) / mean(pair))^2)) over the ten pairs; SciPy: p = 0.003323.
  @Test
  void isProportionalWhereScatterGrowsWithTheLevel() {
    Pooled pooled = Repeatability.pooled(SOAP);
    assertThat(pooled.levelDependence()).isCloseTo(0.003323, within(5e-7));
    assertThat(pooled.repeatability().isProportional()).isTrue();
    assertThat(pooled.repeatability().standardDeviation())
        .isCloseTo(0.03050818084920781, within(1e-12));
    assertThat(pooled.repeatability().at(200)).isCloseTo(6.101636169841562, within(1e-9));
    assertThat(pooled.repeatability().at(-200)).isCloseTo(6.101636169841562, within(1e-9));
    assertThat(pooled.sets()).isEqualTo(10);
    assertThat(pooled.leftOut()).isEmpty();
  }

  // A relative scatter has no meaning at a level of nothing: s_r of the ten pairs and one more is
  // that of all, sqrt((10 x 4.8477^2 + 0.5 x 0.2^2) / 11) (computed).
  @Test
  void isNotProportionalWhereALevelIsNotAboveNothing() {
    Pooled pooled = Repeatability.pooled(with(SOAP, List.of(0.1, -0.1)));
    assertThat(pooled.levelDependence()).isLessThan(0.05);
    assertThat(pooled.repeatability().isProportional()).isFalse();
    assertThat(pooled.repeatability().standardDeviation())
        .isCloseTo(Math.sqrt((10 * 4.8477 * 4.8477 + 0.02) / 11), within(5e-5));
  }

  // Computed: differences of 6, 5, 4, 3, 2, 1 at levels that rise, so s_r^2 = 91 / 12.
  @Test
  void isNotProportionalWhereScatterFallsWithTheLevel() {
    Pooled pooled =
        Repeatability.pooled(
            IntStream.range(1, 7).mapToObj(i -> List.of(i * 100.0, i * 100.0 + 7 - i)).toList());
    assertThat(pooled.levelDependence()).isCloseTo(0, within(1e-9));
    assertThat(pooled.repeatability().isProportional()).isFalse();
    assertThat(pooled.repeatability().standardDeviation())
        .isCloseTo(Math.sqrt(91 / 12.0), within(1e-12));
  }

  @Test
  void isNotTestedForItsLevelOnFewerThanFiveSets() {
    assertThat(Repeatability.pooled(SOAP.subList(0, 4)).levelDependence()).isNull();
    assertThat(Repeatability.pooled(SOAP.subList(0, 5)).levelDependence()).isNotNull();
  }

  // Ten pairs at one level that differ by 1 (s_r^2 = 0.5) and one slip: Cochran's C is near 1, and
  // the critical value of 11 pairs at 1 % is 0.6837 (SciPy, from F by the formula of the test).
  @Test
  void leavesASlipOutAndTellsIt() {
    Pooled pooled = Repeatability.pooled(with(alike(10), List.of(30.0, 90.0)));
    assertThat(pooled.repeatability().standardDeviation()).isCloseTo(Math.sqrt(0.5), within(1e-12));
    assertThat(pooled.sets()).isEqualTo(10);
    assertThat(pooled.leftOut()).hasSize(1);
    OutlierCheck slip = pooled.leftOut().get(0);
    assertThat(slip.index()).isEqualTo(10);
    assertThat(slip.statistic()).isCloseTo(1800 / 1805.0, within(1e-12));
    assertThat(slip.outlierAbove()).isCloseTo(0.6837, within(5e-5));
  }

  // Two slips in twenty, told by their places among all; a third would be one in ten too many.
  @Test
  void leavesNoMoreOutThanATenth() {
    List<List<Double>> slips = new ArrayList<>(alike(20));
    slips.set(3, List.of(0.5, 60.5));
    slips.set(5, List.of(15.5, 45.5));
    assertThat(Repeatability.pooled(slips).leftOut())
        .extracting(OutlierCheck::index)
        .containsExactly(3, 5);
    slips.set(2, List.of(20.5, 40.5));
    Pooled pooled = Repeatability.pooled(slips);
    assertThat(pooled.leftOut()).extracting(OutlierCheck::index).containsExactly(3, 5);
    // Computed: 17 differences of 1 and one of 20.
    assertThat(pooled.repeatability().standardDeviation())
        .isCloseTo(Math.sqrt((17 * 0.5 + 200) / 18), within(1e-12));
  }

  // What grows with the level does not stand out for being at the top: 10 % at each of 20 levels.
  @Test
  void leavesNothingOutThatOnlyLiesHigh() {
    Pooled pooled =
        Repeatability.pooled(
            IntStream.range(0, 20)
                .mapToObj(i -> List.of(Math.pow(2, i), 1.1 * Math.pow(2, i)))
                .toList());
    assertThat(pooled.leftOut()).isEmpty();
    assertThat(pooled.repeatability().standardDeviation())
        .isCloseTo(0.1 / 1.05 / Math.sqrt(2), within(1e-12));
  }

  // If the sets that disagree, one in twenty, did not count, s_r would come out at 0.87 of what it
  // is (computed: the standard deviation of a normal distribution cut off at 1.96 is 0.871).
  @Test
  void countsSetsThatDisagree() {
    SplittableRandom random = new SplittableRandom(5725);
    double sum = 0;
    for (int i = 0; i < 400; i++) {
      double s =
          Repeatability.pooled(
                  Stream.generate(
                          () -> List.of(50 + random.nextGaussian(), 50 + random.nextGaussian()))
                      .limit(100)
                      .toList())
              .repeatability()
              .at(50);
      sum += s * s;
    }
    assertThat(Math.sqrt(sum / 400)).isCloseTo(1, within(0.01));
  }

  @Test
  void isNothingWhereAllAgree() {
    Pooled pooled = Repeatability.pooled(alike(12).stream().map(set -> List.of(7.0, 7.0)).toList());
    assertThat(pooled.repeatability().standardDeviation()).isZero();
    assertThat(pooled.levelDependence()).isEqualTo(1);
    assertThat(pooled.leftOut()).isEmpty();
  }

  @Test
  void rejectsWhatSaysNothingAboutScatter() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Repeatability.pooled(List.of()))
        .withMessageStartingWith("Precision needs replicates");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Repeatability.pooled(List.of(List.of(1.0, 2.0), List.of(1.0))))
        .withMessage("A single titration says nothing about scatter.");
  }

  @Test
  void rejectsWhatIsNoStandardDeviation() {
    for (double none : new double[] {-1e-9, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThatIllegalArgumentException().isThrownBy(() -> new Repeatability(none, false, 1));
    }
    assertThatIllegalArgumentException().isThrownBy(() -> new Repeatability(1, false, 0));
  }

  /** Pairs that differ by 1, at levels of 30 and 31, in turn. */
  private static List<List<Double>> alike(int n) {
    return IntStream.range(0, n).mapToObj(i -> List.of(30.0 + i % 2, 31.0 + i % 2)).toList();
  }

  private static List<List<Double>> with(List<List<Double>> sets, List<Double> one) {
    return Stream.concat(sets.stream(), Stream.of(one)).toList();
  }

  private static List<List<Double>> sets(JsonNode sets) {
    return StreamSupport.stream(sets.spliterator(), false)
        .map(
            set ->
                StreamSupport.stream(set.spliterator(), false).map(JsonNode::doubleValue).toList())
        .toList();
  }
}
