package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Titrations.soap;
import static org.sapotrace.chemistry.Titrations.titration;
import static org.sapotrace.chemistry.Titrations.weighed;
import static org.sapotrace.chemistry.Titrations.withRepeatability;

import java.util.Collections;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.MonteCarlo;

class RepeatabilityInBudgetTest {

  private static final String REST = "repeatability beyond reading, end point and mass";

  // Computed: 304.45 mg/kg a mL; reading 0.1 / sqrt(6) and end point 0.025 mL; 0.01 / sqrt(3) g of
  // 10 g; 2 mL of titrant.
  private static final double VALUE = 2 * 304.45;
  private static final double EACH =
      Math.sqrt(
          Math.pow(304.45 * 0.1 / Math.sqrt(6), 2)
              + Math.pow(304.45 * 0.025, 2)
              + Math.pow(VALUE * 0.001 / Math.sqrt(3), 2));

  @Test
  void addsWhatTheBudgetDoesNotExplain() {
    Determination found = of(1, new Repeatability(30, false, 12));
    Contribution rest = rest(found);

    assertThat(rest.standardUncertainty())
        .isCloseTo(Math.sqrt(30 * 30 - EACH * EACH), within(1e-4));
    assertThat(rest.degreesOfFreedom()).isEqualTo(12);
    assertThat(ReplicateAgreement.repeatability(found)).isCloseTo(30, within(1e-9));
  }

  @Test
  void shrinksWithTheNumberOfReplicates() {
    Determination four = of(4, new Repeatability(30, false, 12));

    assertThat(rest(four).standardUncertainty())
        .isCloseTo(Math.sqrt(30 * 30 - EACH * EACH) / 2, within(1e-4));
    // Replicates then agree within f(4) s_r, f(4) = 3.633: ISO 5725-6.
    assertThat(ReplicateAgreement.of(four).criticalRange()).isCloseTo(3.633 * 30, within(0.02));
    assertThat(four.standardUncertaintyWithFurther(12))
        .isCloseTo(
            of(16, new Repeatability(30, false, 12)).budget().standardUncertainty(), within(1e-9));
  }

  @Test
  void growsWithTheLevelWhereItIsProportional() {
    Determination found = of(1, new Repeatability(0.05, true, 12));

    assertThat(rest(found).standardUncertainty())
        .isCloseTo(Math.sqrt(Math.pow(0.05 * VALUE, 2) - EACH * EACH), within(1e-4));
  }

  @Test
  void leavesTheAssumptionsWhereItIsSmaller() {
    Determination assumed = soap(titration(0.01, weighed(2, 10)));

    assertThat(of(1, new Repeatability(0.99 * EACH, false, 40))).isEqualTo(assumed);
    assertThat(of(1, new Repeatability(0, true, 40))).isEqualTo(assumed);
  }

  // Student's t for 10 degrees of freedom: 95 % within 2.228. It is one s_r for all replicates, so
  // that their mean has the same factor as a single one.
  @ParameterizedTest
  @ValueSource(ints = {1, 9})
  void isDrawnFromStudentsT(int n) {
    SampleTitration titration = replicates(n, new Repeatability(500, false, 10));
    Determination found = soap(titration);
    MonteCarlo drawn = titration.soap(Alkali.SODIUM.soapMolarMass()).propagate(20260312);

    assertThat((drawn.upper() - drawn.lower()) / 2)
        .isCloseTo(2.228 * 500 / Math.sqrt(n), within(0.02 * 2.228 * 500 / Math.sqrt(n)));
    assertThat(drawn.disagreesWith(found.value(), found.budget())).isFalse();
  }

  @ParameterizedTest
  @ValueSource(doubles = {-1e-9, Double.NaN, Double.POSITIVE_INFINITY})
  void rejectsWhatIsNoStandardDeviation(double none) {
    assertThatIllegalArgumentException().isThrownBy(() -> new Repeatability(none, false, 10));
    assertThatIllegalArgumentException().isThrownBy(() -> new Repeatability(1, false, 0));
  }

  private static Determination of(int n, Repeatability repeatability) {
    return soap(replicates(n, repeatability));
  }

  private static SampleTitration replicates(int n, Repeatability repeatability) {
    Replicate replicate = weighed(2, 10);
    return withRepeatability(
        titration(0.01, Collections.nCopies(n, replicate).toArray(new Replicate[0])),
        repeatability);
  }

  private static Contribution rest(Determination found) {
    return found.budget().contributions().stream()
        .filter(each -> each.source().equals(REST))
        .findFirst()
        .orElseThrow();
  }
}
