package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.POTASSIUM;
import static org.sapotrace.chemistry.Alkali.SODIUM;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.Density;

class CatalystDemandTest {

  private static final Density OIL = new Density(920);

  // Computed: 2 mg/g x 0.92 g/mL = 1.84 g/L of pure KOH beside 7 g/L, at 85 % assay.
  @Test
  void addsWhatTheAcidUsesUpToTheBaseDose() {
    CatalystDemand demand = CatalystDemand.of(POTASSIUM, 7, 2, OIL, 0.85);
    assertThat(demand.gramsPerLitre()).isCloseTo(8.84 / 0.85, within(1e-12));
    assertThat(demand.inWords()).isEqualTo("10.4 g of KOH per litre of oil");
  }

  // Computed: 56.105 / 39.997.
  @Test
  void asksForMorePotassiumThanSodiumHydroxide() {
    CatalystDemand sodium = CatalystDemand.of(SODIUM, 0, 2, OIL, 1);
    CatalystDemand potassium = CatalystDemand.of(POTASSIUM, 0, 2, OIL, 1);
    assertThat(potassium.gramsPerLitre() / sodium.gramsPerLitre()).isCloseTo(1.4027, within(5e-5));
    assertThat(sodium.inWords()).endsWith(" g of NaOH per litre of oil");
  }

  // AOCS Ca 5a-40 (from memory): the acid value is about 1.99 times the free fatty acid.
  @Test
  void takesFreeFattyAcidForTwiceItsAcidNumber() {
    assertThat(CatalystDemand.acidNumber(1)).isCloseTo(1.99, within(0.005));
  }

  @Test
  void countsAnAcidNumberBelowZeroAsNone() {
    assertThat(CatalystDemand.of(SODIUM, 5, -0.1, OIL, 1).gramsPerLitre()).isEqualTo(5);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -0.1, 1.01, 85, Double.NaN})
  void rejectsWhatIsNoAssay(double assay) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> CatalystDemand.of(SODIUM, 5, 1, OIL, assay))
        .withMessageEndingWith("it must be more than 0 and at most 1, as 0.85 for 85 %.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {-0.1, 100.1, Double.NaN})
  void rejectsWhatIsNoDose(double dose) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> CatalystDemand.of(SODIUM, dose, 1, OIL, 1))
        .withMessageEndingWith("it must be from 0 to 100 g/L.");
  }

  @Test
  void rejectsWhatIsNoAcidNumber() {
    for (double none : new double[] {1220.1, Double.NaN}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> CatalystDemand.of(SODIUM, 5, none, OIL, 1))
          .withMessageEndingWith("no oil has more than 1220 mg/g.");
    }
  }
}
