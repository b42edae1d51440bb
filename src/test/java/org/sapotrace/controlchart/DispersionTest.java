package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.hipparchus.stat.StatUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class DispersionTest {

  // Certified values: NIST Statistical Reference Datasets. The moving range: computed with more
  // digits from the data as written. NumAcc4 cannot do better than 8 digits: its values, near 1e7,
  // differ by 0.1, of which a double holds 8 digits.
  @ParameterizedTest
  @CsvSource({
    "S1, NumAcc1, 15", "S2, NumAcc2, 12", "S4, NumAcc4, 8",
    "S5, Michelso, 12", "S6, Mavro, 12", "S7, Lew, 14"
  })
  void reachesTheCertifiedDigits(String id, String name, double digits) {
    double[] values = Published.series(name);
    JsonNode expected = Published.example(id);
    double mean = expected.at("/certified/mean").asDouble();
    double sd = expected.at("/certified/sd").asDouble();
    double movingRange = expected.at("/extra/sigma_mr").asDouble();
    double c4 = ControlChartConstants.c4(values.length);

    assertThat(logRelativeError(StatUtils.mean(values), mean)).isGreaterThanOrEqualTo(14);
    assertThat(logRelativeError(Dispersion.STANDARD_DEVIATION.sigma(values) * c4, sd))
        .isGreaterThanOrEqualTo(digits);
    assertThat(logRelativeError(Dispersion.MOVING_RANGE.sigma(values), movingRange))
        .isGreaterThanOrEqualTo(digits);
  }

  /** How many digits agree; 16 where all do. */
  private static double logRelativeError(double actual, double expected) {
    double relative = Math.abs(actual - expected) / Math.abs(expected);
    return relative == 0 ? 16 : -Math.log10(relative);
  }

  // Median moving ranges: worked-examples.json N1, M4 and M8, computed. The divisor is the median
  // of |X1 - X2| of the unit normal, √2 times the upper quartile 0.674489750196082 (any table).
  @ParameterizedTest
  @CsvSource({"nist_flowrate, 1.5", "loan_cost, 5.0", "aspe_concentration, 2.6"})
  void dividesTheMedianMovingRangeByItsExpectation(String name, double median) {
    assertThat(Dispersion.MEDIAN_MOVING_RANGE.sigma(Published.series(name)))
        .isCloseTo(median / (Math.sqrt(2) * 0.674489750196082), within(1e-13 * median));
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "RANGE")
  void scalesWithTheResultsAndIgnoresTheirOrigin(Dispersion dispersion) {
    double[] values = Published.series("loan_cost");
    double sigma = dispersion.sigma(values);
    double[] scaled = Arrays.stream(values).map(x -> 1000 - 0.25 * x).toArray();
    assertThat(dispersion.sigma(scaled)).isCloseTo(0.25 * sigma, within(1e-14 * sigma));
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "RANGE")
  void isExactlyZeroForEqualResults(Dispersion dispersion) {
    SplittableRandom random = new SplittableRandom(7);
    for (int n = 2; n < 200; n++) {
      double[] equal = new double[n];
      Arrays.fill(equal, 1000 * random.nextDouble());
      assertThat(dispersion.sigma(equal)).isZero();
    }
  }

  @Test
  void refusesTheRangeOfSingleResults() {
    assertThatThrownBy(() -> Dispersion.RANGE.sigma(new double[] {1, 2, 3}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "The range is taken within subgroups, and these are single results. Use moving-range,"
                + " median-moving-range or standard-deviation.");
  }

  @ParameterizedTest
  @EnumSource
  void refusesOneResult(Dispersion dispersion) {
    assertThatThrownBy(() -> dispersion.sigma(new double[] {1}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("A standard deviation needs at least 2 results, not 1.");
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void refusesResultsThatAreNotFinite(double value) {
    assertThatThrownBy(() -> Dispersion.MOVING_RANGE.sigma(new double[] {1, value, 3}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("finite numbers");
  }

  @ParameterizedTest
  @EnumSource
  void isFoundByItsId(Dispersion dispersion) {
    assertThat(Dispersion.named(dispersion.id())).isEqualTo(dispersion);
  }

  @Test
  void namesTheEstimatorsWhereOneIsUnknown() {
    assertThatThrownBy(() -> Dispersion.named("MOVING_RANGE"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "There is no dispersion \"MOVING_RANGE\". Use one of moving-range,"
                + " median-moving-range, standard-deviation, range.");
  }
}
