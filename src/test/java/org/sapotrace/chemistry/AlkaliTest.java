package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.chemistry.Alkali.POTASSIUM;
import static org.sapotrace.chemistry.Alkali.SODIUM;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.testing.ChemistryReference;

class AlkaliTest {

  @Test
  void hasTheMolarMassesOfTheConventionalAtomicWeights() {
    assertMolarMass(SODIUM.soapMolarMass(), "sodiumOleate");
    assertMolarMass(POTASSIUM.soapMolarMass(), "potassiumOleate");
    assertMolarMass(SODIUM.hydroxideMolarMass(), "NaOH");
    assertMolarMass(POTASSIUM.hydroxideMolarMass(), "KOH");
  }

  static List<JsonNode> metalEquivalents() {
    return ChemistryReference.rows("metalEquivalent");
  }

  // One of the two is rounded to four figures, which the other one carries on.
  @ParameterizedTest
  @MethodSource("metalEquivalents")
  void convertsBetweenSoapAndMetal(JsonNode row) {
    Alkali alkali = Alkali.named(row.required("metal").textValue());
    double metal = row.required("mgPerKg").doubleValue();
    double soap = row.required("soapMgPerKg").doubleValue();
    assertThat(MetalEquivalent.soap(alkali, metal)).isCloseTo(soap, within(0.007));
    assertThat(MetalEquivalent.metal(alkali, soap)).isCloseTo(metal, within(0.0007));
  }

  @ParameterizedTest
  @EnumSource
  void convertsThereAndBackKeepingTheSign(Alkali alkali) {
    for (double soap : new double[] {-12.5, 0, 50, 1e6}) {
      assertThat(MetalEquivalent.soap(alkali, MetalEquivalent.metal(alkali, soap)))
          .isCloseTo(soap, within(1e-9));
    }
  }

  @ParameterizedTest
  @EnumSource
  void isFoundByItsName(Alkali alkali) {
    assertThat(Alkali.named(alkali.id())).isEqualTo(alkali);
    assertThat(alkali.soapName()).isEqualTo(alkali.id() + " oleate");
  }

  @Test
  void rejectsOtherNames() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Alkali.named("lithium"))
        .withMessage("The alkali \"lithium\" is not known; give one of sodium, potassium.");
  }

  private static void assertMolarMass(MolarMass molarMass, String name) {
    double expected = ChemistryReference.entry("molarMasses").required(name).doubleValue();
    assertThat(molarMass.gramsPerMole()).as(name).isCloseTo(expected, within(1e-9));
  }
}
