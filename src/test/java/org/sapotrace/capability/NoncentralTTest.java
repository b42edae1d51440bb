package org.sapotrace.capability;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class NoncentralTTest {

  private static final NormalDistribution NORMAL = new NormalDistribution();

  // tolerance_k1.csv, computed: k1 √n is the 95 % quantile under noncentrality √n z, with z the
  // normal quantile of the coverage. The factors have nine decimals.
  @ParameterizedTest
  @CsvFileSource(resources = "/control-charts/tolerance_k1.csv", numLinesToSkip = 1)
  void hasTheToleranceFactorsAsQuantiles(
      int n, double p90, double p95, double p99, double p9973, double p99865) {
    double[] factors = {p90, p95, p99, p9973, p99865};
    double[] coverages = {0.90, 0.95, 0.99, 0.9973, 0.99865};
    for (int i = 0; i < factors.length; i++) {
      NoncentralT t = new NoncentralT(n - 1.0);
      double delta = Math.sqrt(n) * NORMAL.inverseCumulativeProbability(coverages[i]);
      double quantile = factors[i] * Math.sqrt(n);
      assertThat(t.cumulativeProbability(quantile, delta)).isCloseTo(0.95, within(1e-9));
      assertThat(t.noncentrality(quantile, 0.95)).isCloseTo(delta, within(1e-7));
    }
  }

  // Student's distribution as the library has it, good to 1e-11; of ν = 1000 computed with 40
  // digits
  // from the incomplete beta function.
  @ParameterizedTest
  @CsvSource({"1, 0.3", "2, -1.7", "29, 2.5", "29, -40", "1000, 0.001", "100000, 1.2"})
  void isStudentsWithoutNoncentrality(double nu, double t) {
    assertThat(new NoncentralT(nu).cumulativeProbability(t, 0))
        .isCloseTo(new TDistribution(nu).cumulativeProbability(t), within(1e-11));
    assertThat(new NoncentralT(1000).cumulativeProbability(0.001, 0))
        .isCloseTo(0.50039884249077363, within(1e-14));
  }

  // P(T ≤ 0) = Φ(-delta), and P(T ≤ t; delta) = 1 - P(T ≤ -t; -delta): by the definition.
  @ParameterizedTest
  @ValueSource(doubles = {-3, -0.2, 0, 1, 7})
  void isNormalAtZeroAndMirrored(double delta) {
    NoncentralT t = new NoncentralT(12);
    assertThat(t.cumulativeProbability(0, delta))
        .isCloseTo(NORMAL.cumulativeProbability(-delta), within(1e-15));
    assertThat(t.cumulativeProbability(1e-13, delta))
        .isCloseTo(NORMAL.cumulativeProbability(-delta), within(1e-12));
    assertThat(t.cumulativeProbability(1.5, delta))
        .isCloseTo(1 - t.cumulativeProbability(-1.5, -delta), within(1e-14));
  }

  /**
   * With two degrees of freedom the density of W is 2 w e^(-w²), and the integral is elementary.
   */
  @ParameterizedTest
  @CsvSource({"1, 0.5", "3, 2", "0.1, -1", "50, 30"})
  void agreesWithTheClosedFormOfTwoDegreesOfFreedom(double t, double delta) {
    // P(T ≤ t) = Φ(-δ) + t/√(t² + 2) e^(-δ²/(t² + 2)) Φ(δ t/√(t² + 2)), by integration in parts.
    double root = Math.sqrt(t * t + 2);
    double expected =
        NORMAL.cumulativeProbability(-delta)
            + t
                / root
                * Math.exp(-delta * delta / (root * root))
                * NORMAL.cumulativeProbability(delta * t / root);
    assertThat(new NoncentralT(2).cumulativeProbability(t, delta))
        .isCloseTo(expected, within(1e-12));
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 0.99, Double.NaN, Double.POSITIVE_INFINITY})
  void refusesOtherDegreesOfFreedom(double nu) {
    assertThatThrownBy(() -> new NoncentralT(nu)).isInstanceOf(IllegalArgumentException.class);
  }
}
