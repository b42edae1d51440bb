package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.testing.ChemistryReference;

class NormalRangeTest {

  // ISO 5725-6, table 1 (from memory), and to three places computed from the distribution.
  @ParameterizedTest
  @ValueSource(ints = {2, 3, 4, 5, 6, 8, 10})
  void hasTheCriticalRangeFactorsOfTheStandard(int n) {
    JsonNode exact = ChemistryReference.entry("criticalRangeFactor95").required("exact");
    assertThat(new NormalRange(n).quantile(0.95))
        .isCloseTo(exact.required(String.valueOf(n)).doubleValue(), within(5e-4));
  }

  // The range of two is the size of a normal difference with variance 2: 1.959964 sqrt(2).
  @ParameterizedTest
  @ValueSource(doubles = {0.001, 0.5, 0.95, 0.999})
  void ofTwoIsTheSizeOfTheirDifference(double p) {
    double z = new NormalDistribution().inverseCumulativeProbability((1 + p) / 2);
    assertThat(new NormalRange(2).quantile(p)).isCloseTo(z * Math.sqrt(2), within(1e-9));
  }

  @ParameterizedTest
  @ValueSource(ints = {2, 3, 7, 25})
  void findsTheProbabilityOfItsQuantiles(int n) {
    NormalRange range = new NormalRange(n);
    for (double p : new double[] {0.001, 0.25, 0.95, 0.999}) {
      assertThat(range.cumulativeProbability(range.quantile(p))).isCloseTo(p, within(1e-10));
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -0.1, 0.9991, 1, Double.NaN})
  void rejectsOtherProbabilities(double p) {
    assertThatIllegalArgumentException().isThrownBy(() -> new NormalRange(3).quantile(p));
  }

  @Test
  void rejectsOtherSizes() {
    for (int n : new int[] {-1, 0, 1, 26}) {
      assertThatIllegalArgumentException()
          .isThrownBy(() -> new NormalRange(n))
          .withMessageStartingWith("A range is taken of 2 to 25 results, not " + n);
    }
  }
}
