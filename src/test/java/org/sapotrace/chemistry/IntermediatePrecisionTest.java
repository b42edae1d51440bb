package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.sapotrace.testing.ChemistryReference;

class IntermediatePrecisionTest {

  private static final JsonNode STUDY = ChemistryReference.entry("precisionStudy");
  private static final List<List<Double>> COAL = coal();

  // ISO 5725-2:1994, annex B.1, sulfur in coal, level 1.
  @Test
  void isThatOfThePublishedStudyOnOneSample() {
    IntermediatePrecision found = IntermediatePrecision.of(List.of(COAL));
    assertThat(found.repeatability()).isCloseTo(STUDY.required("sr").doubleValue(), within(5e-4));
    assertThat(found.standardDeviation())
        .isCloseTo(STUDY.required("sR").doubleValue(), within(5e-4));
    assertThat(found.standardDeviation())
        .isCloseTo(STUDY.required("unrounded").get(2).doubleValue(), within(5e-7));
  }

  // Computed: levels do not count, and the same study twice tells the same.
  @Test
  void comparesAnalystsOnEachSampleByItself() {
    List<List<Double>> higher =
        COAL.stream().map(lab -> lab.stream().map(each -> each + 9).toList()).toList();
    IntermediatePrecision one = IntermediatePrecision.of(List.of(COAL));
    IntermediatePrecision both = IntermediatePrecision.of(List.of(COAL, higher));
    assertThat(both.repeatability()).isCloseTo(one.repeatability(), within(1e-12));
    assertThat(both.between()).isCloseTo(one.between(), within(1e-12));
  }

  // NumPy: least squares on indicators of samples, and of analysts within samples (lstsq); their
  // sums of squares over 5 and 3 degrees of freedom, with n = 1.8667 by the formula.
  @Test
  void poolsSamplesOfUnequalSizeByDegreesOfFreedom() {
    IntermediatePrecision found =
        IntermediatePrecision.of(
            List.of(
                List.of(List.of(50.1, 50.5), List.of(52.0, 51.4, 51.8)),
                List.of(List.of(101.0, 100.2), List.of(103.1), List.of(102.0, 102.8))));
    assertThat(found.repeatability()).isCloseTo(0.42583251793790056, within(1e-9));
    assertThat(found.between()).isCloseTo(1.134628111929608, within(1e-9));
    assertThat(found.standardDeviation()).isCloseTo(1.2119052296752744, within(1e-9));
  }

  // Computed: equal means, so that s_d is 0 and less than s_r.
  @Test
  void findsNothingBetweenAnalystsWhoAgree() {
    IntermediatePrecision found =
        IntermediatePrecision.of(List.of(List.of(List.of(49.0, 51.0), List.of(48.0, 52.0))));
    assertThat(found.between()).isZero();
    assertThat(found.standardDeviation()).isEqualTo(found.repeatability());
  }

  @Test
  void rejectsSamplesThatTellNothingOfAnalysts() {
    for (List<List<List<Double>>> none :
        List.of(List.<List<List<Double>>>of(), List.of(List.of(List.of(1.0, 2.0))))) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> IntermediatePrecision.of(none))
          .withMessageStartingWith("Precision between analysts needs samples");
    }
    assertThatIllegalArgumentException()
        .isThrownBy(() -> IntermediatePrecision.of(List.of(List.of(List.of(1.0), List.of(2.0)))))
        .withMessageStartingWith("Precision needs replicates");
    assertThatIllegalArgumentException().isThrownBy(() -> new IntermediatePrecision(1, Double.NaN));
  }

  private static List<List<Double>> coal() {
    JsonNode labs = STUDY.required("labs");
    return StreamSupport.stream(labs.spliterator(), false)
        .map(
            lab ->
                StreamSupport.stream(lab.spliterator(), false).map(JsonNode::doubleValue).toList())
        .toList();
  }
}
