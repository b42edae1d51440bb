package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.function.DoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class QuantitiesTest {

  static Stream<Arguments> quantities() {
    return Stream.of(
        quantity(Volume::new, 0, 100_000),
        quantity(Mass::new, 1e-6, 100_000),
        quantity(Normality::new, 1e-6, 10),
        quantity(MolarMass::new, 1, 10_000),
        quantity(Density::new, 500, 2000),
        quantity(Temperature::new, -50, 100));
  }

  @ParameterizedTest
  @MethodSource("quantities")
  void acceptsBothEndsOfItsRange(DoubleFunction<Record> quantity, double lowest, double highest) {
    assertThatCode(() -> quantity.apply(lowest)).doesNotThrowAnyException();
    assertThatCode(() -> quantity.apply(highest)).doesNotThrowAnyException();
  }

  @ParameterizedTest
  @MethodSource("quantities")
  void rejectsWhatIsBeyondItsRange(DoubleFunction<Record> quantity, double lowest, double highest) {
    for (double beyond :
        new double[] {
          Math.nextDown(lowest),
          Math.nextUp(highest),
          Double.NaN,
          Double.POSITIVE_INFINITY,
          Double.NEGATIVE_INFINITY
        }) {
      assertThatIllegalArgumentException()
          .as("%s", beyond)
          .isThrownBy(() -> quantity.apply(beyond))
          .withMessageContaining("must be from");
    }
  }

  @Test
  void saysWhatIsWrongAndWhatToDo() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Volume(-0.1))
        .withMessage(
            "The volume is -0.1 mL; it must be from 0 to 100000 mL: check the entry and its unit.");
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Normality(Double.NaN))
        .withMessage(
            "The normality is not a number; it must be from 0.000001 to 10 mol/L: check the entry and its unit.");
  }

  @Test
  void rejectsAnUncertaintyThatIsNone() {
    Normality normality = new Normality(0.01);
    for (double none : new double[] {-1e-9, Double.NaN, Double.POSITIVE_INFINITY}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> Measured.of(normality, none))
          .withMessageContaining("standard uncertainty of the value");
      assertThatIllegalArgumentException()
          .isThrownBy(() -> Contribution.of("end point", none))
          .withMessageContaining("standard uncertainty of the result from the end point");
    }
    for (double none : new double[] {0, -1, Double.NaN}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Measured<>(normality, 1e-5, none))
          .withMessageContaining("degrees of freedom");
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new Contribution("end point", 1, none))
          .withMessageContaining("degrees of freedom");
    }
  }

  @Test
  void takesAnExactQuantityAsWithoutUncertainty() {
    assertThat(Measured.exactly(new Normality(0.01)))
        .isEqualTo(new Measured<>(new Normality(0.01), 0, Double.POSITIVE_INFINITY));
  }

  private static Arguments quantity(DoubleFunction<Record> quantity, double low, double high) {
    return Arguments.of(quantity, low, high);
  }
}
