package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.ControlChartConstants;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Dispersion;

class FalseAlarmsTest {

  private static final NormalDistribution NORMAL = new NormalDistribution();

  // estimated_limits.csv, computed; the column mean_FAR.
  @ParameterizedTest
  @CsvFileSource(resources = "/control-charts/estimated_limits.csv", numLinesToSkip = 1)
  void agreeWithTheTable(int m, String estimator, double rate) {
    Dispersion dispersion =
        estimator.equals("s/c4") ? Dispersion.STANDARD_DEVIATION : Dispersion.MOVING_RANGE;
    assertThat(FalseAlarms.rate(m, dispersion)).isCloseTo(rate, within(1e-6));
  }

  /**
   * By the standard deviation there is a formula, also between and beyond the table's sizes. Below
   * the table, the extrapolation falls short by a few parts in a hundred.
   */
  @ParameterizedTest
  @ValueSource(ints = {8, 9, 12, 15, 22, 30, 40, 70, 150, 400, 800, 3000, 100_000})
  void agreeWithStudentsDistributionByTheStandardDeviation(int n) {
    double multiple = 3 / ControlChartConstants.c4(n) / Math.sqrt(1 + 1.0 / n);
    double exact = 2 * new TDistribution(n - 1.0).cumulativeProbability(-multiple);
    assertThat(FalseAlarms.rate(n, Dispersion.STANDARD_DEVIATION))
        .isCloseTo(exact, within((n < 10 ? 0.07 : 0.04) * exact));
  }

  /** By moving ranges, against simulated baselines, each with its exact rate; 1 % is 3 errors. */
  @ParameterizedTest
  @ValueSource(ints = {8, 15, 35, 70})
  void agreeWithSimulationByMovingRanges(int n) {
    SplittableRandom random = new SplittableRandom(n);
    int baselines = 100_000;
    double sum = 0;
    for (int i = 0; i < baselines; i++) {
      double[] values = DoubleStream.generate(random::nextGaussian).limit(n).toArray();
      ControlLimits limits = ControlLimits.from(values, Dispersion.MOVING_RANGE, false);
      sum +=
          NORMAL.cumulativeProbability(-limits.above(3))
              + NORMAL.cumulativeProbability(limits.centre() - 3 * limits.sigma());
    }
    double simulated = sum / baselines;
    assertThat(FalseAlarms.rate(n, Dispersion.MOVING_RANGE))
        .isCloseTo(simulated, within((n < 10 ? 0.07 : 0.04) * simulated));
  }
}
