package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.Baseline;

class ResolutionTest {

  /** The values differ by multiples of 0.1, which doubles cannot hold. */
  @Test
  void findsTheStepThatWasTyped() {
    Resolution found = of(41.3, 41.2, 41.6, 40.9, 41.2, 41.4);
    assertThat(found.step()).isEqualTo(0.1);
    // Moving ranges 0.1, 0.4, 0.7, 0.3, 0.2, mean 0.34; D4 = 3.267: 1.11 is eleven steps.
    assertThat(found.possibleRanges()).isEqualTo(12);
    assertThat(found.adequate()).isTrue();
  }

  // Moving ranges 1, 0, 0, 1, 0, mean 0.4; D4 = 3.267: 1.31 is one step, so 0 and 1 are possible.
  @Test
  void isCoarseWhereThreeRangesOrFewerArePossible() {
    Resolution found = of(30, 31, 31, 31, 30, 30);
    assertThat(found.step()).isEqualTo(1);
    assertThat(found.possibleRanges()).isEqualTo(2);
    assertThat(found.adequate()).isFalse();
  }

  /** What was computed to the same value in two ways is not a step. */
  @Test
  void ignoresTheRoundingOfComputations() {
    assertThat(of(0.1 + 0.2, 0.3, 0.4, 0.3, 0.5).step()).isCloseTo(0.1, withinRounding());
  }

  // rounding.csv, computed: from 0.1 to 3 standard deviations, the number of possible values of the
  // moving range within its limit.
  @ParameterizedTest
  @CsvFileSource(resources = "/control-charts/rounding.csv", numLinesToSkip = 1)
  void agreesWithWhatCoarseStepsAllow(
      double increment,
      double range,
      double a,
      double b,
      double c,
      double d,
      double e,
      double f,
      double g,
      long least,
      long most) {
    SplittableRandom random = new SplittableRandom(23);
    double[] rounded =
        DoubleStream.generate(() -> increment * Math.rint(random.nextGaussian() / increment))
            .limit(20_000)
            .toArray();
    assertThat(of(rounded).possibleRanges()).isBetween(least, most);
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, 7, -1e300})
  void isNullForEqualResults(double value) {
    assertThat(Resolution.of(Baseline.of(new double[] {value, value, value}))).isNull();
  }

  private static org.assertj.core.data.Offset<Double> withinRounding() {
    return org.assertj.core.api.Assertions.within(1e-15);
  }

  private static Resolution of(double... values) {
    return Objects.requireNonNull(Resolution.of(Baseline.of(values)));
  }
}
