package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.POTASSIUM;
import static org.sapotrace.chemistry.Alkali.SODIUM;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class TestPlanTest {

  private static final Glassware BURETTE = Glassware.named("burette-25ml");
  private static final Glassware PIPETTE = Glassware.named("measuring-pipette-1ml");

  // Computed: sqrt(2 x 0.0408^2 + 2 x 0.025^2 + 0.0204^2) = 0.0707 mL, at 304.45 mg/kg per mL of
  // 10 g and with 0.2 % of 66.2 mg/kg; times 1.96.
  @Test
  void foreseesWhatTheBudgetWillSay() {
    TestPlan plan = TestPlan.of(SODIUM, 66.2, 45, BURETTE);
    assertThat(plan.sampleG()).isEqualTo(10);
    assertThat(plan.expandedUncertainty()).isCloseTo(1.96 * 304.45 * 0.07071, within(0.1));
  }

  @Test
  void raisesTheSampleBeforeTheReplicates() {
    assertThat(List.of(100.0, 45.0, 22.0, 11.0, 4.5))
        .extracting(wanted -> TestPlan.of(SODIUM, 66.2, wanted, BURETTE).sampleG())
        .containsExactly(5.0, 10.0, 20.0, 40.0, 100.0);
    assertThat(List.of(100.0, 45.0, 22.0, 11.0, 4.5))
        .allSatisfy(
            wanted -> {
              TestPlan plan = TestPlan.of(SODIUM, 66.2, wanted, BURETTE);
              assertThat(plan.replicates()).isEqualTo(1);
              assertThat(plan.isGoodEnough()).isTrue();
              assertThat(plan.expandedUncertainty()).isLessThanOrEqualTo(wanted);
            });
    TestPlan hard = TestPlan.of(SODIUM, 66.2, 3.7, BURETTE);
    assertThat(hard.sampleG()).isEqualTo(100);
    assertThat(hard.replicates()).isGreaterThan(1);
    assertThat(hard.isGoodEnough()).isTrue();
    assertThat(hard.reason())
        .startsWith("The largest sample alone does not reach ± 3.7 mg/kg, so it takes ");
  }

  // A fixed part, the blank and the glassware, does not shrink with more titrations.
  @Test
  void offersTheBestWhereNothingIsGoodEnough() {
    TestPlan plan = TestPlan.of(SODIUM, 66.2, 0.1, BURETTE);
    assertThat(plan.isGoodEnough()).isFalse();
    assertThat(plan.sampleG()).isEqualTo(100);
    assertThat(plan.replicates()).isEqualTo(6);
    assertThat(plan.reason())
        .isEqualTo(
            "Nothing reaches ± 0.1 mg/kg with this glassware; the best there is: 6 titrations of 100 g.");
  }

  // Computed: 1200 mg/kg on 100 g are 39.4 mL of 0.01 mol/L, more than a burette of 25 mL holds.
  @Test
  void takesAStrongerTitrantWhereTheWeakOneDoesNotFit() {
    TestPlan weak = TestPlan.of(SODIUM, 1200, 50, BURETTE);
    assertThat(weak.normality().molesPerLitre()).isEqualTo(0.01);
    TestPlan strong = TestPlan.of(POTASSIUM, 20_000, 3000, BURETTE);
    assertThat(strong.normality().molesPerLitre()).isEqualTo(0.1);
  }

  @Test
  void comparesTheOtherGlassware() {
    List<TestPlan> others = TestPlan.alternatives(SODIUM, 66.2, 11, BURETTE);
    assertThat(others).extracting(TestPlan::glassware).contains(PIPETTE).doesNotContain(BURETTE);
    // A fine pipette does with a smaller sample what the burette does with 40 g.
    TestPlan pipette =
        others.stream().filter(each -> each.glassware().equals(PIPETTE)).findFirst().orElseThrow();
    assertThat(pipette.isGoodEnough()).isTrue();
    assertThat(pipette.sampleG()).isLessThan(40);
    assertThat(others.get(0).sampleG()).isLessThanOrEqualTo(pipette.sampleG());
    // 20 000 mg/kg on 5 g are 3.3 mL even of 0.1 mol/L.
    assertThat(TestPlan.alternatives(SODIUM, 20_000, 3000, BURETTE))
        .extracting(TestPlan::glassware)
        .doesNotContain(PIPETTE);
  }

  @Test
  void rejectsGlasswareThatIsTooSmall() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> TestPlan.of(SODIUM, 20_000, 3000, PIPETTE))
        .withMessage(
            "At 20000 mg/kg the titrant does not fit into one filling of measuring-pipette-1ml; name a larger one.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, 1_000_000.1, Double.NaN})
  void rejectsWhatIsNoLevel(double level) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> TestPlan.of(SODIUM, level, 5, BURETTE))
        .withMessage("The level must be from 0 to 1000000 mg/kg.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -1, Double.NaN, Double.POSITIVE_INFINITY})
  void rejectsWhatIsNoUncertainty(double wanted) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> TestPlan.of(SODIUM, 66.2, wanted, BURETTE))
        .withMessageStartingWith("The wanted expanded uncertainty must be");
  }
}
