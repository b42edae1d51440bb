package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.testing.ChemistryReference;

class SpecificationTest {

  static List<JsonNode> conformity() {
    return ChemistryReference.rows("conformity");
  }

  // JCGM 106:2012 (the Zener diode) and computed: Phi((upper - y) / u).
  @ParameterizedTest
  @MethodSource("conformity")
  void hasTheProbabilityOfTheWorkedExamples(JsonNode row) {
    Specification specification = new Specification(null, row.required("upper").doubleValue());
    double y = row.required("y").doubleValue();
    double u = row.required("u").doubleValue();
    assertThat(specification.probabilityMet(y, u))
        .isCloseTo(row.required("p").doubleValue(), within(0.0005));
    // The mirror image: the same distance above a lower limit.
    assertThat(new Specification(-row.required("upper").doubleValue(), null).probabilityMet(-y, u))
        .isCloseTo(row.required("p").doubleValue(), within(0.0005));
  }

  // Computed: Phi(2) - Phi(-2) = 0.954500 and Phi(4) - Phi(0) = 0.499968.
  @Test
  void countsBothTailsBetweenTwoLimits() {
    Specification specification = new Specification(10.0, 14.0);
    assertThat(specification.probabilityMet(12, 1)).isCloseTo(0.9544997, within(1e-7));
    assertThat(specification.probabilityMet(10, 1)).isCloseTo(0.4999683, within(1e-7));
  }

  @Test
  void comparesAnExactValue() {
    Specification specification = new Specification(10.0, 14.0);
    assertThat(specification.probabilityMet(14, 0)).isEqualTo(1);
    assertThat(specification.probabilityMet(Math.nextUp(14.0), 0)).isZero();
    assertThat(specification.probabilityMet(Math.nextDown(10.0), 0)).isZero();
  }

  @Test
  void allowsItsOwnLimits() {
    Specification specification = new Specification(10.0, 14.0);
    assertThat(specification.allows(10)).isTrue();
    assertThat(specification.allows(14)).isTrue();
    assertThat(specification.allows(Math.nextDown(10.0))).isFalse();
    assertThat(specification.allows(Math.nextUp(14.0))).isFalse();
  }

  @ParameterizedTest
  @CsvSource({"-5, 10", "11.9, 10", "12, 14", "12.1, 14", "20, 14"})
  void isDecidedByTheNearerLimit(double value, double limit) {
    assertThat(new Specification(10.0, 14.0).decidingLimit(value)).isEqualTo(limit);
    assertThat(new Specification(null, 14.0).decidingLimit(value)).isEqualTo(14);
    assertThat(new Specification(10.0, null).decidingLimit(value)).isEqualTo(10);
  }

  // Computed: 5 mg/kg of the metal, 66.21 mg/kg sodium oleate, 40.99 mg/kg potassium oleate.
  @ParameterizedTest
  @CsvSource({"SODIUM, 66.21", "POTASSIUM, 40.99"})
  void limitsSoapByTheMetalUnlessToldOtherwise(Alkali alkali, double upper) {
    Specification specification = Specification.soapDefault(alkali);
    assertThat(specification.lower()).isNull();
    assertThat(specification.upper()).isCloseTo(upper, within(0.005));
  }

  @Test
  void refusesLimitsThatSayNothing() {
    String noLimit = "A specification needs a lower or an upper limit, each of them a number.";
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Specification(null, null))
        .withMessage(noLimit);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Specification(null, Double.NaN))
        .withMessage(noLimit);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Specification(Double.NEGATIVE_INFINITY, 5.0))
        .withMessage(noLimit);
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Specification(5.0, 5.0))
        .withMessage("The lower specification limit must be below the upper one.");
  }

  // Student's t for 4 degrees of freedom: 95 % lie below 2.132 (any table); for the normal
  // distribution it would be 98.3 %.
  @Test
  void takesStudentsTWhereTheUncertaintyIsHardlyKnown() {
    Specification limit = new Specification(null, 2.132);
    assertThat(limit.probabilityMet(0, 1, 4)).isCloseTo(0.95, within(1e-4));
    assertThat(limit.probabilityMet(0, 1, Double.POSITIVE_INFINITY))
        .isEqualTo(limit.probabilityMet(0, 1))
        .isCloseTo(0.9835, within(1e-4));
  }
}
