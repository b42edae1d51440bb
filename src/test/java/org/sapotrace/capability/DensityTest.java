package org.sapotrace.capability;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.PowerTransform;

class DensityTest {

  // Definition of the normal density: 1/(s √(2π)) at the mean, less by e^(-1/2) one s from it.
  @Test
  void isThatOfTheNormalDistributionWithoutATransform() {
    Shape shape = new Shape(50, 16, 2, null);
    double summit = 1 / (2 * Math.sqrt(2 * Math.PI));
    assertThat(shape.density(16)).isCloseTo(summit, within(1e-15));
    assertThat(shape.density(18)).isCloseTo(summit * Math.exp(-0.5), within(1e-15));
  }

  // Definition of the lognormal density, with power 0.
  @Test
  void isThatOfTheLognormalDistributionOfLogarithms() {
    Shape shape = new Shape(50, 1.5, 0.4, new PowerTransform(0));
    double x = 6;
    double z = (Math.log(x) - 1.5) / 0.4;
    assertThat(shape.density(x))
        .isCloseTo(Math.exp(-z * z / 2) / (x * 0.4 * Math.sqrt(2 * Math.PI)), within(1e-15));
    assertThat(shape.density(0)).isZero();
    assertThat(shape.density(-1)).isZero();
  }

  // Φ(3) - Φ(-3) = 0.9973002039367398 (NIST/SEMATECH e-Handbook 1.3.6.7.1: 2 x 0.49865 to 5
  // digits).
  @ParameterizedTest
  @ValueSource(doubles = {-0.4, 0, 0.28, 0.5, 1, 1.7})
  void holdsWhatLiesBetweenThePercentiles(double power) {
    Shape shape = new Shape(50, 1.2, 0.15, new PowerTransform(power));
    double from = shape.lowPercentile();
    double to = shape.highPercentile();
    double area =
        new GaussIntegratorFactory().legendre(200, from, to).integrate(x -> shape.density(x));
    assertThat(area).isCloseTo(0.9973002039367398, within(1e-9));
  }
}
