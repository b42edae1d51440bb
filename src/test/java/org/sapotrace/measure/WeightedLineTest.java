package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.assertThatIllegalStateException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.regression.SimpleRegression;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.WeightedLine.Interval;
import org.sapotrace.measure.WeightedLine.Observation;

class WeightedLineTest {

  /** NIST Statistical Reference Datasets, linear regression, Norris: y, then x, 36 observations. */
  private static final double[] NORRIS = {
    0.1, 0.2, 338.8, 337.4, 118.1, 118.2, 888.0, 884.6, 9.2, 10.1, 228.1, 226.5, 668.5, 666.3,
    998.5, 996.3, 449.1, 448.6, 778.9, 777.0, 559.2, 558.2, 0.3, 0.4, 0.1, 0.6, 778.1, 775.5,
    668.8, 666.9, 339.3, 338.0, 448.9, 447.5, 10.8, 11.6, 557.7, 556.0, 228.3, 228.1, 998.0, 995.8,
    888.8, 887.6, 119.6, 120.2, 0.3, 0.3, 0.6, 0.3, 557.6, 556.8, 339.3, 339.1, 888.0, 887.2,
    998.5, 999.0, 778.9, 779.0, 10.2, 11.1, 117.6, 118.3, 228.9, 229.2, 668.4, 669.1, 449.2, 448.9,
    0.2, 0.5
  };

  /** With equal uncertainties that say too little, the scatter decides, as in the certificate. */
  @Test
  void agreesWithTheCertifiedValuesOfNorris() {
    WeightedLine line =
        WeightedLine.through(
            IntStream.range(0, NORRIS.length / 2)
                .mapToObj(i -> new Observation(NORRIS[2 * i + 1], NORRIS[2 * i], 1e-3))
                .toList());

    assertThat(line.slope()).isCloseTo(1.00211681802045, within(1e-13));
    assertThat(line.at(0)).isCloseTo(-0.262323073774029, within(1e-11));
    assertThat(line.slopeStandardError()).isCloseTo(0.429796848199937e-3, within(1e-15));
  }

  /** Hipparchus SimpleRegression: slope, its standard error, and half the interval of the slope. */
  @ParameterizedTest
  @ValueSource(longs = {1, 2, 3, 4, 5})
  void agreesWithUnweightedRegressionWhereUncertaintiesAreEqual(long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    SimpleRegression other = new SimpleRegression();
    List<Observation> observations =
        random
            .doubles(3 + seed, 0, 90)
            .mapToObj(x -> new Observation(x, 0.01 + 1e-6 * x + random.nextGaussian(0, 1e-4), 1e-9))
            .toList();
    observations.forEach(each -> other.addData(each.x(), each.y()));
    WeightedLine line = WeightedLine.through(observations);

    assertThat(line.slope()).isCloseTo(other.getSlope(), within(1e-15));
    assertThat(line.slopeStandardError()).isCloseTo(other.getSlopeStdErr(), within(1e-15));
    assertThat(line.slopeInterval().upper() - line.slope())
        .isCloseTo(other.getSlopeConfidenceInterval(), within(1e-14));
    assertThat(line.at(45)).isCloseTo(other.predict(45), within(1e-15));
  }

  /**
   * Computed by hand: weights 1, 1 and 4; xm = (0 + 1 + 8) / 6 = 3/2, ym = (0 + 1 + 12) / 6 = 13/6;
   * S = 9/4 + 1/4 + 4/4 = 7/2; b = (3/2 * 13/6 + 1/2 * 7/6 + 4 * 1/2 * 5/6) / S = 11/7. The
   * residuals 4/21, -8/21 and 1/21 come to a scatter below 1, so s(b) = 1 / sqrt(S), which is
   * known: the normal quantile is 1.959964.
   */
  @Test
  void weighsObservationsByTheirUncertainty() {
    WeightedLine line =
        WeightedLine.through(
            List.of(
                new Observation(0, 0, 1), new Observation(1, 1, 1), new Observation(2, 3, 0.5)));

    assertThat(line.slope()).isCloseTo(11.0 / 7, within(1e-12));
    assertThat(line.at(1.5)).isCloseTo(13.0 / 6, within(1e-12));
    assertThat(line.slopeStandardError()).isCloseTo(1 / Math.sqrt(3.5), within(1e-12));
    assertThat(line.slopeInterval().upper() - line.slope())
        .isCloseTo(1.959964 / Math.sqrt(3.5), within(1e-6));
    assertThat(line.isInclined()).isTrue();
  }

  /**
   * Computed: through (0, 10) and (10, 12), each with u = 0.3, b = 0.2 and s(b) = 0.3 sqrt(2) / 10;
   * the normal quantile is 1.959964. y = 14 is reached at 20.
   */
  @Test
  void takesTwoObservationsByTheirUncertaintiesAlone() {
    WeightedLine line = two(0.3);

    assertThat(line.slope()).isCloseTo(0.2, within(1e-14));
    assertThat(line.slopeStandardError()).isCloseTo(0.0424264, within(1e-7));
    assertThat(line.slopeInterval().lower()).isCloseTo(0.2 - 0.0831542, within(1e-6));
    assertThat(line.isInclined()).isTrue();
    assertThat(line.reaches(14)).isCloseTo(20, within(1e-12));
  }

  /** Fieller's interval ends where the interval of the line just holds the value. */
  @ParameterizedTest
  @CsvSource({"14, 0.3", "14, 0.05", "11, 0.3", "9, 0.3", "100, 0.3"})
  void endsItsIntervalWhereTheLineMayJustReachTheValue(double y, double u) {
    WeightedLine line = two(u);
    Interval interval = line.reaching(y);

    assertThat(interval.holds(line.reaches(y))).isTrue();
    for (double x : new double[] {interval.lower(), interval.upper()}) {
      // The variance of the mean of two, and of the slope times the distance from their middle.
      double variance = u * u / 2 + u * u / 50 * (x - 5) * (x - 5);
      assertThat(Math.abs(line.at(x) - y)).isCloseTo(1.959964 * Math.sqrt(variance), within(1e-4));
    }
  }

  /** Of 2000 seeded lines about a true one, 95 % hold where that one reaches the value. */
  @Test
  void coversTheTruthAsOftenAsItSays() {
    SplittableRandom random = new SplittableRandom(20_260_301);
    int lines = 2000;
    long held =
        IntStream.range(0, lines)
            .filter(
                i -> {
                  WeightedLine line =
                      WeightedLine.through(
                          IntStream.range(0, 8)
                              .mapToObj(
                                  x -> new Observation(x, x + random.nextGaussian(0, 0.2), 1e-6))
                              .toList());
                  return line.reaching(12).holds(12);
                })
            .count();

    assertThat(held / (double) lines).isCloseTo(0.95, within(0.015));
  }

  /** Of 4000 seeded lines whose uncertainties are what they are said to be, the slope is held. */
  @ParameterizedTest
  @ValueSource(ints = {3, 4, 5, 8})
  void coversTheSlopeWhereTheUncertaintiesAreTrue(int count) {
    SplittableRandom random = new SplittableRandom(20_260_302);
    int lines = 4000;
    long held =
        IntStream.range(0, lines)
            .filter(
                i ->
                    WeightedLine.through(
                            IntStream.range(0, count)
                                .mapToObj(
                                    x -> new Observation(x, x + random.nextGaussian(0, 0.2), 0.2))
                                .toList())
                        .slopeInterval()
                        .holds(1))
            .count();

    assertThat(held / (double) lines).isBetween(0.94, 0.99);
  }

  /** 1 % in 20 days, thrice, known to 0.3 %: the slope is 6 of its standard errors, or 5. */
  @Test
  void seesADriftOfThreeThatAreWellKnown() {
    assertThat(
            WeightedLine.through(
                    List.of(
                        new Observation(0, 0.01000, 3e-5),
                        new Observation(20, 0.01010, 3e-5),
                        new Observation(40, 0.01021, 3e-5)))
                .isInclined())
        .isTrue();
  }

  @Test
  void saysWhenTheScatterCountsMore() {
    List<Observation> scattered =
        List.of(new Observation(0, 0, 0.1), new Observation(1, 2, 0.1), new Observation(2, 2, 0.1));
    double t = new TDistribution(1).inverseCumulativeProbability(0.975);

    // Computed: b = 1, residuals -1/3, 2/3, -1/3, so s = sqrt(2/3) and s(b) = s / sqrt(2).
    WeightedLine line = WeightedLine.through(scattered);
    assertThat(line.slopeStandardError()).isCloseTo(1 / Math.sqrt(3), within(1e-12));
    assertThat(line.slopeInterval().upper()).isCloseTo(1 + t / Math.sqrt(3), within(1e-9));
  }

  @Test
  void reachesNothingWhereItMayBeLevel() {
    WeightedLine line = two(3);

    assertThat(line.isInclined()).isFalse();
    assertThatIllegalStateException().isThrownBy(() -> line.reaches(14));
    assertThatIllegalStateException().isThrownBy(() -> line.reaching(14));
  }

  @Test
  void refusesObservationsAtOnePlace() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                WeightedLine.through(List.of(new Observation(1, 1, 1), new Observation(1, 2, 1))));
    assertThatIllegalArgumentException().isThrownBy(() -> WeightedLine.through(List.of()));
  }

  @ParameterizedTest
  @CsvSource({"NaN, 1, 1", "1, NaN, 1", "1, 1, NaN", "1, 1, 0", "1, 1, -1", "1, 1, Infinity"})
  void refusesWhatIsNoObservation(double x, double y, double u) {
    assertThatIllegalArgumentException().isThrownBy(() -> new Observation(x, y, u));
  }

  private static WeightedLine two(double u) {
    return WeightedLine.through(List.of(new Observation(0, 10, u), new Observation(10, 12, u)));
  }
}
