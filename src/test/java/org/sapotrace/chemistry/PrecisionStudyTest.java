package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.sapotrace.chemistry.OutlierCheck.Finding;
import org.sapotrace.testing.ChemistryReference;

class PrecisionStudyTest {

  private static final JsonNode COAL = ChemistryReference.entry("precisionStudy");
  private static final PrecisionStudy SULFUR = study(COAL.required("labs"));
  private static final JsonNode PAIRS = ChemistryReference.entry("repeatability");
  private static final PrecisionStudy SOAP = study(PAIRS.required("pairs"));

  // ISO 5725-2:1994, annex B.1, sulfur in coal, level 1.
  @Test
  void reproducesThePublishedRepeatability() {
    assertThat(SULFUR.repeatability()).isCloseTo(number("sr"), within(5e-4));
    assertThat(SULFUR.repeatability())
        .isCloseTo(COAL.required("unrounded").get(1).doubleValue(), within(5e-7));
  }

  // The published study keeps all its laboratories. Computed: C = 0.000633 / 0.001808 and G =
  // 0.0412
  // / 0.0228, SciPy.
  @Test
  void findsNothingThatStandsOutInThePublishedStudy() {
    OutlierCheck variance = SULFUR.largestVariance();
    assertThat(variance.index()).isEqualTo(7);
    assertThat(variance.statistic()).isCloseTo(0.35023, within(5e-6));
    assertThat(variance.finding()).isEqualTo(Finding.CORRECT);
    OutlierCheck mean =
        OutlierCheck.grubbs(
            SULFUR.groups().stream()
                .map(lab -> lab.stream().mapToDouble(each -> each).average().orElseThrow())
                .toList());
    assertThat(mean.index()).isEqualTo(5);
    assertThat(mean.statistic()).isCloseTo(1.80713, within(5e-6));
    assertThat(mean.finding()).isEqualTo(Finding.CORRECT);
  }

  @Test
  void poolsTheRepeatabilityOfPairsAtAnyLevel() {
    assertThat(SOAP.repeatability()).isCloseTo(PAIRS.required("sr").doubleValue(), within(5e-5));
    assertThat(SOAP.degreesOfFreedom()).isEqualTo(10);
  }

  // Computed: pairs and larger groups weigh by their degrees of freedom, (0.5 + 2 x 1) / 3.
  @Test
  void poolsGroupsOfAnySizeAndSkipsSingleOnes() {
    PrecisionStudy study =
        new PrecisionStudy(List.of(List.of(10.0, 11.0), List.of(1.0, 2.0, 3.0), List.of(50.0)));
    assertThat(study.repeatability()).isCloseTo(Math.sqrt(2.5 / 3), within(1e-12));
    assertThat(study.degreesOfFreedom()).isEqualTo(3);
  }

  // Adding a constant changes no scatter, and a factor scales it.
  @Test
  void shiftsAndScalesWithTheReplicates() {
    List<List<Double>> changed =
        SULFUR.groups().stream()
            .map(group -> group.stream().map(each -> 7 + 100 * each).toList())
            .toList();
    assertThat(new PrecisionStudy(changed).repeatability())
        .isCloseTo(100 * SULFUR.repeatability(), within(1e-9));
  }

  // Rank correlation of the ten pairs: 0.8247, p = 0.003323 (SciPy, stats.spearmanr).
  @Test
  void seesThatTheScatterGrowsWithTheLevel() {
    assertThat(SOAP.levelDependence()).isCloseTo(0.003323, within(5e-7));
  }

  @Test
  void seesNoDependenceWhereAllScatterAlike() {
    List<List<Double>> alike =
        IntStream.range(0, 6).mapToObj(i -> List.of(i * 64.0, i * 64.0 + 1)).toList();
    assertThat(new PrecisionStudy(alike).levelDependence()).isEqualTo(1);
  }

  @Test
  void isCertainOfAScatterThatGrowsWithoutException() {
    List<List<Double>> growing =
        IntStream.range(1, 7).mapToObj(i -> List.of(i * 64.0, i * 65.0)).toList();
    assertThat(new PrecisionStudy(growing).levelDependence()).isCloseTo(0, within(1e-9));
  }

  // Both ranks of nine are tied: the correlation is 1, and says nothing.
  @Test
  void seesNoDependenceOnOneLevelAndASingleOther() {
    List<List<Double>> tied = new ArrayList<>(Collections.nCopies(9, List.of(50.0, 51.0)));
    tied.add(List.of(51.0, 53.0));
    assertThat(new PrecisionStudy(tied).levelDependence()).isEqualTo(1);
  }

  @Test
  void knowsScatterThatGrowsFromScatterThatFalls() {
    List<List<Double>> falling =
        IntStream.range(1, 7).mapToObj(i -> List.of(i * 64.0, i * 64.0 + 7 - i)).toList();
    assertThat(SOAP.growsWithLevel()).isTrue();
    assertThat(SULFUR.growsWithLevel()).isFalse();
    assertThat(new PrecisionStudy(falling).levelDependence()).isLessThan(0.05);
    assertThat(new PrecisionStudy(falling).growsWithLevel()).isFalse();
  }

  // ISO 5725-2, table 4 (from memory), replicates in pairs.
  @Test
  void hasTheCriticalValuesOfCochran() {
    JsonNode table = ChemistryReference.entry("cochranCritical");
    double tolerance = table.required("tolerance").doubleValue();
    for (int p : new int[] {3, 5, 8, 10}) {
      JsonNode row = table.required("n2").required(String.valueOf(p));
      assertThat(OutlierCheck.cochranCritical(p, 1, 0.01))
          .isCloseTo(row.get(0).doubleValue(), within(tolerance));
      assertThat(OutlierCheck.cochranCritical(p, 1, 0.05))
          .isCloseTo(row.get(1).doubleValue(), within(tolerance));
    }
  }

  // ISO 5725-2, table 5 (from memory).
  @Test
  void hasTheCriticalValuesOfGrubbs() {
    JsonNode table = ChemistryReference.entry("grubbsCritical");
    double tolerance = table.required("tolerance").doubleValue();
    for (int p : new int[] {5, 6, 8, 10, 20}) {
      JsonNode row = table.required(String.valueOf(p));
      assertThat(OutlierCheck.grubbsCritical(p, 0.01))
          .isCloseTo(row.get(0).doubleValue(), within(tolerance));
      assertThat(OutlierCheck.grubbsCritical(p, 0.05))
          .isCloseTo(row.get(1).doubleValue(), within(tolerance));
    }
  }

  // Critical values for five: 1.715 and 1.764. Four at 0, 1, 2, 3 and one farther and farther out.
  @Test
  void tellsStragglersFromOutliers() {
    assertThat(grubbs(0, 1, 2, 3, 4).finding()).isEqualTo(Finding.CORRECT);
    assertThat(grubbs(0, 1, 2, 3, 16).finding()).isEqualTo(Finding.STRAGGLER);
    assertThat(grubbs(0, 1, 2, 3, 100).finding()).isEqualTo(Finding.OUTLIER);
    assertThat(grubbs(100, 101, 102, 103, 0).index()).isEqualTo(4);
    // Ten variances in pairs: 0.602 and 0.7175.
    assertThat(cochran(10).finding()).isEqualTo(Finding.CORRECT);
    assertThat(cochran(18).finding()).isEqualTo(Finding.STRAGGLER);
    assertThat(cochran(30).finding()).isEqualTo(Finding.OUTLIER);
    assertThat(Finding.STRAGGLER.id()).isEqualTo("straggler");
  }

  @Test
  void rejectsWhatSaysNothingAboutScatter() {
    for (List<List<Double>> none :
        List.of(
            List.<List<Double>>of(),
            List.of(List.of(1.0), List.of(2.0)),
            List.of(List.of(1.0, 2.0), List.<Double>of()))) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new PrecisionStudy(none))
          .withMessageStartingWith("Precision needs replicates in every group");
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new PrecisionStudy(List.of(List.of(1.0, Double.NaN))))
        .withMessage("Every replicate must be a number.");
  }

  @Test
  void rejectsTestsWithTooLittleToTest() {
    PrecisionStudy alone = new PrecisionStudy(List.of(List.of(1.0, 2.0)));
    assertThatIllegalArgumentException()
        .isThrownBy(alone::largestVariance)
        .withMessageStartingWith("Cochran's test needs two groups");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> grubbs(1.0, 2.0))
        .withMessageStartingWith("Grubbs' test needs three figures");
    assertThatIllegalArgumentException()
        .isThrownBy(alone::levelDependence)
        .withMessageStartingWith("Whether scatter depends on the level");
  }

  private static OutlierCheck grubbs(double... figures) {
    return OutlierCheck.grubbs(Arrays.stream(figures).boxed().toList());
  }

  /** Nine variances of 1 and one that is so many times as large. */
  private static OutlierCheck cochran(double largest) {
    List<Double> variances = new ArrayList<>(Collections.nCopies(9, 1.0));
    variances.add(largest);
    return OutlierCheck.cochran(variances, 1);
  }

  private static PrecisionStudy study(JsonNode groups) {
    return new PrecisionStudy(
        StreamSupport.stream(groups.spliterator(), false)
            .map(
                group ->
                    StreamSupport.stream(group.spliterator(), false)
                        .map(JsonNode::doubleValue)
                        .toList())
            .toList());
  }

  private static double number(String name) {
    return COAL.required(name).doubleValue();
  }
}
