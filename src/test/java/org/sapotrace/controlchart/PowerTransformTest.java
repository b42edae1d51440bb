package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PowerTransformTest {

  // By hand from (x^lambda - 1)/lambda.
  @Test
  void isThePowerOrTheLogarithm() {
    assertThat(new PowerTransform(1).apply(7)).isCloseTo(6, within(1e-14));
    assertThat(new PowerTransform(2).apply(3)).isCloseTo(4, within(1e-14));
    assertThat(new PowerTransform(-1).apply(4)).isCloseTo(0.75, within(1e-15));
    assertThat(new PowerTransform(0).apply(Math.E)).isCloseTo(1, within(1e-15));
    assertThat(new PowerTransform(1e-12).apply(5)).isCloseTo(Math.log(5), within(1e-11));
  }

  @ParameterizedTest
  @ValueSource(doubles = {-2, -0.3, 0, 1e-9, 0.276, 1, 3})
  void isUndone(double lambda) {
    PowerTransform transform = new PowerTransform(lambda);
    for (double x : new double[] {0.03, 0.9, 1, 1.5, 40}) {
      assertThat(transform.inverse(transform.apply(x))).isCloseTo(x, within(1e-12 * x));
    }
  }

  @Test
  void hasNoInverseBeyondItsEnd() {
    assertThat(new PowerTransform(0.5).inverse(-2)).isNaN();
    assertThat(new PowerTransform(-0.5).inverse(2.1)).isNaN();
  }

  @Test
  void refusesWhatHasNoPower() {
    assertThatThrownBy(() -> new PowerTransform(0).apply(0))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("above 0");
    assertThatThrownBy(() -> new PowerTransform(0.5).apply(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new PowerTransform(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
