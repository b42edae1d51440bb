package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.hipparchus.stat.StatUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.controlchart.Published;

class BoxCoxTest {

  // NIST/SEMATECH e-Handbook 6.5.2 prints 0.28; the digits are computed: worked-examples.json N6.
  @Test
  void findsThePowerOfThePublishedExample() {
    JsonNode expected = Published.example("N6");
    BoxCox found = of(Published.series("nist_boxcox"));

    assertThat(found.lambda()).isCloseTo(0.28, within(0.005));
    assertThat(found.lambda()).isCloseTo(expected.get("lambda_mle").asDouble(), within(1e-8));
    assertThat(found.lower()).isCloseTo(expected.at("/ci95/0").asDouble(), within(1e-6));
    assertThat(found.upper()).isCloseTo(expected.at("/ci95/1").asDouble(), within(1e-6));
    assertThat(found.allows(0)).isTrue();
    assertThat(found.allows(1)).isFalse();
  }

  // The log-likelihoods that N6 tabulates agree with the definition below to their four digits;
  // no power of the table or near the estimate does better than the estimate.
  @Test
  void isTheLargestOfTheTabulatedLikelihoods() {
    double[] values = Published.series("nist_boxcox");
    JsonNode table = Published.example("N6").get("loglik_table");
    double best = logLikelihood(of(values).lambda(), values);

    table.forEachEntry(
        (lambda, expected) ->
            assertThat(logLikelihood(Double.parseDouble(lambda), values))
                .isCloseTo(expected.asDouble(), within(1e-4))
                .isLessThan(best));
    assertThat(best)
        .isCloseTo(Published.example("N6").get("loglik_max").asDouble(), within(1e-6))
        .isGreaterThan(logLikelihood(of(values).lambda() + 1e-4, values))
        .isGreaterThan(logLikelihood(of(values).lambda() - 1e-4, values));
  }

  /** A power raised by p has its own power divided by p; a factor changes nothing. */
  @ParameterizedTest
  @ValueSource(doubles = {-2, -0.5, 0.1, 3})
  void followsPowersAndIgnoresUnits(double power) {
    double[] values = Published.series("nist_boxcox");
    BoxCox plain = of(values);
    BoxCox raised = of(Arrays.stream(values).map(x -> 50 * Math.pow(x, power)).toArray());

    assertThat(raised.lambda()).isCloseTo(plain.lambda() / power, within(1e-7));
    double[] ends = {plain.lower() / power, plain.upper() / power};
    assertThat(raised.lower()).isCloseTo(StatUtils.min(ends), within(1e-7));
    assertThat(raised.upper()).isCloseTo(StatUtils.max(ends), within(1e-7));
  }

  /** From nearly flat to wildly skewed: the estimate lies inside its interval, and has no end. */
  @Test
  void isFoundHoweverSkewedOrFlatResultsAre() {
    SplittableRandom random = new SplittableRandom(11);
    for (double sigma : new double[] {3e-6, 1e-4, 0.01, 0.3, 2, 20}) {
      for (int n : new int[] {3, 8, 25, 300}) {
        double[] values =
            DoubleStream.generate(() -> Math.exp(4 + sigma * random.nextGaussian()))
                .limit(n)
                .toArray();
        BoxCox found = of(values);
        assertThat(found.lambda()).isBetween(found.lower(), found.upper());
        assertThat(found.lower()).isLessThan(found.lambda());
      }
    }
  }

  @Test
  void coversTheLogarithmOfLognormalResultsNineteenTimesInTwenty() {
    SplittableRandom random = new SplittableRandom(5);
    int covered = 0;
    for (int i = 0; i < 1000; i++) {
      double[] values =
          DoubleStream.generate(() -> Math.exp(0.5 * random.nextGaussian())).limit(60).toArray();
      covered += of(values).allows(0) ? 1 : 0;
    }
    // 950 expected of a large sample, with a standard deviation of 7.
    assertThat(covered).isBetween(920, 975);
  }

  @Test
  void isNullWhereThereIsNone() {
    assertThat(BoxCox.of(new double[] {1, 2})).isNull();
    assertThat(BoxCox.of(new double[] {1, 2, 0})).isNull();
    assertThat(BoxCox.of(new double[] {1, 2, -3})).isNull();
    assertThat(BoxCox.of(new double[] {1, 2, Double.NaN})).isNull();
    assertThat(BoxCox.of(new double[] {7, 7, 7, 7})).isNull();
    assertThat(BoxCox.of(new double[] {7, 7, 7, 7.000001})).isNull();
  }

  private static BoxCox of(double[] values) {
    return Objects.requireNonNull(BoxCox.of(values));
  }

  /** As Box and Cox write it: -(n/2) ln variance + (lambda - 1) Σ ln x. */
  private static double logLikelihood(double lambda, double[] values) {
    PowerTransform transform = new PowerTransform(lambda);
    double[] y = Arrays.stream(values).map(transform::apply).toArray();
    return -values.length / 2.0 * Math.log(StatUtils.populationVariance(y))
        + (lambda - 1) * StatUtils.sumLog(values);
  }
}
