package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.chemistry.Removal.Content;
import org.sapotrace.measure.Budget;

class RemovalTest {

  private static Removal removal(double inlet, double outlet) {
    return new Removal(content(inlet, null), content(outlet, null));
  }

  private static Content content(double value, @Nullable Double uncertainty) {
    return new Content(value, uncertainty, null);
  }

  /** Logarithms from a table: ln 2 = 0.6931472, ln 10 = 2.3025851, ln 20 = 2.9957323. */
  @ParameterizedTest
  @CsvSource({"1200, 60, 2.9957323", "50, 5, 2.3025851", "5, 10, -0.6931472", "7, 7, 0"})
  void isTheLogarithmOfInletOverOutlet(double inlet, double outlet, double expected) {
    assertThat(removal(inlet, outlet).value()).isCloseTo(expected, within(5e-8));
  }

  @Test
  void staysWhereBothSidesAreTwiceAsSoapy() {
    assertThat(removal(2400, 120).value()).isCloseTo(removal(1200, 60).value(), within(1e-12));
  }

  @Test
  void addsUpOverStepsOneBehindTheOther() {
    double both = removal(1200, 300).value() + removal(300, 60).value();

    assertThat(both).isCloseTo(removal(1200, 60).value(), within(1e-12));
  }

  /** By hand: 36/1200 is 0.03 and 2.4/60 is 0.04, and 3, 4, 5 is a right triangle. */
  @Test
  void combinesRelativeUncertainties() {
    Budget budget = new Removal(content(1200, 36.0), content(60, 2.4)).budget().orElseThrow();

    assertThat(budget.standardUncertainty()).isCloseTo(0.05, within(1e-15));
    assertThat(budget.contributions().get(0).source()).isEqualTo("outlet result");
    assertThat(budget.share(budget.contributions().get(0))).isCloseTo(0.64, within(1e-12));
    assertThat(budget.effectiveDegreesOfFreedom()).isInfinite();
  }

  /** By hand, Welch-Satterthwaite: 0.05^4 / (0.03^4/4 + 0.04^4/9) = 12.835. */
  @Test
  void combinesDegreesOfFreedom() {
    Removal found = new Removal(new Content(100, 3.0, 4.0), new Content(50, 2.0, 9.0));

    assertThat(found.budget().orElseThrow().effectiveDegreesOfFreedom())
        .isCloseTo(12.835, within(0.0005));
  }

  @Test
  void hasNoUncertaintyWhereASideHasNone() {
    assertThat(new Removal(content(1200, 36.0), content(60, null)).budget()).isEmpty();
    assertThat(new Removal(content(1200, null), content(60, 2.4)).budget()).isEmpty();
    assertThat(new Removal(content(1200, 1.0), content(1e-300, 1e10)).budget()).isEmpty();
  }

  @Test
  void isRoughBeyondAQuarter() {
    assertThat(new Removal(content(1200, 36.0), content(60, 15.0)).isRough()).isFalse();
    assertThat(new Removal(content(1200, 36.0), content(60, 15.1)).isRough()).isTrue();
    assertThat(new Removal(content(1200, 310.0), content(60, null)).isRough()).isTrue();
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -0.0, -1, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesContentsWithoutALogarithm(double value) {
    assertThatThrownBy(() -> removal(value, 5))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("above 0");
    assertThatThrownBy(() -> removal(5, value)).isInstanceOf(IllegalArgumentException.class);
  }
}
