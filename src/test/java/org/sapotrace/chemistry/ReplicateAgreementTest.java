package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.ChemistryReference;

class ReplicateAgreementTest {

  static List<JsonNode> flow() {
    return ChemistryReference.rows("agreement");
  }

  @ParameterizedTest
  @MethodSource("flow")
  void goesThroughTheFlowOfTheStandard(JsonNode row) {
    double repeatability = row.required("sr").doubleValue();
    List<Double> all = numbers(row.required("first"));
    if (row.has("then")) {
      ReplicateAgreement first = ReplicateAgreement.of(all, repeatability);
      assertThat(first.accepted()).isFalse();
      assertThat(first.needed()).isEqualTo(row.required("then").size());
      all.addAll(numbers(row.required("then")));
    }
    ReplicateAgreement agreement = ReplicateAgreement.of(all, repeatability);
    assertThat(agreement.value()).isEqualTo(row.required("answer").doubleValue());
    assertThat(agreement.branch()).isEqualTo(row.required("branch").textValue());
    assertThat(agreement.accepted()).isTrue();
    assertThat(agreement.needed()).isZero();
  }

  // ISO 5725-6, 5.2.2.1 (from memory): 14 is more than 3.633 x 3.
  @Test
  void reportsTheMedianWhenTheFurtherTitrationsDoNotSettleIt() {
    ReplicateAgreement agreement = ReplicateAgreement.of(List.of(52.0, 66.0, 58.0, 61.0), 3);
    assertThat(agreement.branch()).isEqualTo("median of 4");
    assertThat(agreement.value()).isEqualTo(59.5);
    assertThat(agreement.range()).isEqualTo(14);
    assertThat(agreement.criticalRange()).isCloseTo(3 * 3.633, within(0.002));
    assertThat(agreement.accepted()).isTrue();
    assertThat(agreement.needed()).isZero();
  }

  // ISO 5725-6, 5.2.2.2 (from memory): a third titration alone may settle it.
  @Test
  void countsFromTheFirstTitrationsThatDisagreed() {
    assertThat(ReplicateAgreement.of(List.of(50.0, 62.0), 4).needed()).isEqualTo(2);
    assertThat(ReplicateAgreement.of(List.of(50.0, 62.0, 56.0), 4).branch()).isEqualTo("mean of 3");
    assertThat(ReplicateAgreement.of(List.of(50.0, 62.0, 64.0), 4).needed()).isEqualTo(1);
    // The first two agree, the first three do not: three more.
    assertThat(ReplicateAgreement.of(List.of(50.0, 58.0, 64.0), 4).needed()).isEqualTo(3);
    assertThat(ReplicateAgreement.of(List.of(50.0, 58.0, 64.0, 66.0), 4).needed()).isEqualTo(2);
  }

  @Test
  void acceptsARangeThatIsJustTheCriticalOne() {
    double critical = ReplicateAgreement.of(List.of(0.0, 0.0), 1).criticalRange();
    assertThat(ReplicateAgreement.of(List.of(0.0, critical), 1).accepted()).isTrue();
    assertThat(ReplicateAgreement.of(List.of(0.0, Math.nextUp(critical)), 1).accepted()).isFalse();
  }

  @Test
  void asksForMoreWhereNothingMayDiffer() {
    assertThat(ReplicateAgreement.of(List.of(1.0, 1.0), 0).accepted()).isTrue();
    assertThat(ReplicateAgreement.of(List.of(1.0, 1.1), 0).accepted()).isFalse();
  }

  // Computed: 30.445 mg/kg per 0.1 mL; reading 0.0408, end point 0.025 mL and 5.77 mg of 10 g. What
  // errs alike in both titrations does not count.
  @Test
  void takesReadingEndPointAndMassFromTheBudget() {
    Determination found = soap(titration(0.01, weighed(2.1, 10), weighed(2.1, 10)));
    double repeatability = 304.45 * Math.hypot(Math.hypot(0.0408248, 0.025), 2.1 * 5.7735e-4);
    assertThat(ReplicateAgreement.of(found).criticalRange())
        .isCloseTo(2.7718 * repeatability, within(0.005));
    assertThat(ReplicateAgreement.of(found).accepted()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1e-9, Double.NaN, Double.POSITIVE_INFINITY})
  void rejectsWhatIsNoRepeatability(double repeatability) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> ReplicateAgreement.of(List.of(1.0, 1.0), repeatability))
        .withMessage("The repeatability must be a number of at least 0.");
  }

  // The critical range of 25 is 5.1730 (SciPy, studentized_range.ppf(0.95, 25, inf)).
  @Test
  void comparesMoreThanTwentyFiveByTheCriticalRangeOfTwentyFive() {
    List<Double> many = new ArrayList<>(Collections.nCopies(99, 0.0));
    many.add(5.172);
    ReplicateAgreement agreement = ReplicateAgreement.of(many, 1);
    assertThat(agreement.criticalRange()).isCloseTo(5.17300, within(5e-6));
    assertThat(agreement.branch()).isEqualTo("mean of 100");
    many.set(99, 5.174);
    assertThat(ReplicateAgreement.of(many, 1).branch()).isEqualTo("median of 100");
    assertThat(ReplicateAgreement.of(many, 1).accepted()).isTrue();
  }

  @Test
  void asksForNoMoreThanTwentyFive() {
    List<Double> all = new ArrayList<>(Collections.nCopies(19, 0.0));
    all.add(9.0);
    assertThat(ReplicateAgreement.of(all, 1).needed()).isEqualTo(5);
    all.addAll(Collections.nCopies(5, 0.0));
    assertThat(ReplicateAgreement.of(all, 1).branch()).isEqualTo("median of 25");
    assertThat(ReplicateAgreement.of(all, 1).needed()).isZero();
  }

  // Computed: f(2) = 2.7718 times 2 % of a mean of 608.9 mg/kg.
  @Test
  void takesTheBenchsOwnRepeatabilityAtTheLevelOfTheMean() {
    Determination found = soap(titration(0.01, weighed(2.1, 10), weighed(2.1, 10)));
    ReplicateAgreement agreement = ReplicateAgreement.of(found, new Repeatability(0.02, true, 10));
    assertThat(agreement.repeatability()).isCloseTo(0.02 * found.value(), within(1e-9));
    assertThat(agreement.criticalRange()).isCloseTo(2.771808 * 0.02 * found.value(), within(1e-4));
    assertThat(ReplicateAgreement.of(found, new Repeatability(20, false, 10)).repeatability())
        .isEqualTo(20);
  }

  // Computed: 304.45 mg/kg per mL and a reading of 0.0408248 mL; equal replicates before say that
  // nothing scatters, but the next may be read one line further.
  @Test
  void takesNoLessThanReadingTheScaleLeaves() {
    Determination found = soap(titration(0.01, weighed(2.1, 10), weighed(2.2, 10)));
    ReplicateAgreement agreement = ReplicateAgreement.of(found, new Repeatability(0, false, 10));
    assertThat(agreement.repeatability()).isCloseTo(304.45 * 0.0408248, within(0.001));
    assertThat(agreement.accepted()).isTrue();
  }

  @Test
  void rejectsOtherNumbersOfReplicates() {
    for (int n : new int[] {0, 1}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> ReplicateAgreement.of(Collections.nCopies(n, 1.0), 1));
    }
  }

  private static List<Double> numbers(JsonNode list) {
    return new ArrayList<>(
        StreamSupport.stream(list.spliterator(), false).map(JsonNode::doubleValue).toList());
  }
}
