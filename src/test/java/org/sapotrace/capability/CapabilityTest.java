package org.sapotrace.capability;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.controlchart.Published;

class CapabilityTest {

  private static final NormalDistribution NORMAL = new NormalDistribution();

  // worked-examples.json capability_…, computed; mean 16, standard deviation 2, limits 8 and 20 are
  // those of NIST/SEMATECH e-Handbook 6.1.6.
  @ParameterizedTest
  @CsvSource({
    "capability_nist, 50, 16, 2, 8, 20",
    "capability_montgomery_cp, 20, 50, 1.75, 38, 62",
    "capability_q97, 30, 97, 1.6, 90, 100"
  })
  void agreesWithComputedIndices(
      String id, int n, double mean, double s, double lower, double upper) {
    JsonNode expected = Published.example(id);
    Shape shape = new Shape(n, mean, s, null);
    double cpu = shape.index(upper, Tail.HIGH);

    assertThat(cpu).isCloseTo(expected.get("Cpu").asDouble(), within(1e-8));
    assertThat(shape.index(lower, Tail.LOW))
        .isCloseTo(expected.get("Cpl").asDouble(), within(1e-8));
    assertThat(shape.lowerBound(cpu, Tail.HIGH, 0.95))
        .isCloseTo(expected.get("Cpu_exact_lower1").asDouble(), within(1e-8));
    assertThat(shape.bissell(cpu, Tail.HIGH, 0.95))
        .isCloseTo(expected.get("Cpk_bissell_lower1").asDouble(), within(1e-8));
  }

  // worked-examples.json capability_133, computed: the two-sided 95 % interval begins at the
  // one-sided 97.5 % bound.
  @Test
  void agreesWithBissellOnAnIndexOfOneAndAThird() {
    assertThat(new Shape(20, 0, 1, null).bissell(1.33, Tail.HIGH, 0.975))
        .isCloseTo(Published.example("capability_133").at("/ci/0").asDouble(), within(1e-8));
  }

  @Test
  void takesTheNearerLimitOfTwo() {
    double[] values = normalScores(100, 10, 2);
    Capability both = Capability.of(values, 2.0, 17.0, 0.95);
    Capability upper = Capability.of(values, null, 17.0, 0.95);

    assertThat(both.cpk()).isEqualTo(upper.cpk()).isEqualTo(upper.cpu());
    assertThat(both.lowerBound()).isEqualTo(upper.lowerBound()).isLessThan(both.cpk());
    assertThat(upper.cpl()).isNull();
    assertThat(both.shape().transform()).isNull();
    // Exactly spread normal scores: (17 - 10)/(3 s), and s of them stands beside it.
    assertThat(both.cpk())
        .isCloseTo((17 - both.mean()) / (3 * both.standardDeviation()), within(1e-12));
  }

  /** Of lognormal results, the percentiles are those of the lognormal, to what n allows. */
  @Test
  void usesPercentilesOfSkewedResults() {
    double[] skewed = Arrays.stream(normalScores(200, 3, 0.5)).map(Math::exp).toArray();
    Capability found = Capability.of(skewed, null, 150.0, 0.95);
    double median = Math.exp(3);
    double high = Math.exp(3 + 3 * 0.5);

    assertThat(found.shape().transform()).isNotNull();
    assertThat(found.shape().median()).isCloseTo(median, within(0.01 * median));
    assertThat(found.shape().highPercentile()).isCloseTo(high, within(0.03 * high));
    assertThat(found.cpk()).isCloseTo((150 - median) / (high - median), within(0.05));
    // As if they were normal, the index would be almost twice as large.
    assertThat((150 - found.mean()) / (3 * found.standardDeviation()))
        .isGreaterThan(1.7 * found.cpk());
  }

  /** The spread of the estimate is the one that is propagated: simulated, with the power known. */
  @ParameterizedTest
  @CsvSource({"0, HIGH, 150", "0, LOW, 2", "0.5, HIGH, 60", "-0.5, LOW, 8"})
  void boundsPercentilesWithTheirConfidence(double lambda, Tail tail, double limit) {
    PowerTransform transform = new PowerTransform(lambda);
    double centre = transform.apply(20);
    double spread = 0.3 * Math.pow(20, lambda);
    double truth = new Shape(50, centre, spread, transform).index(limit, tail);
    SplittableRandom random = new SplittableRandom(8);
    int covered = 0;
    int trials = 4000;
    for (int i = 0; i < trials; i++) {
      double[] y =
          DoubleStream.generate(() -> centre + spread * random.nextGaussian()).limit(50).toArray();
      Shape shape = Shape.of(y, transform);
      covered += shape.bissell(shape.index(limit, tail), tail, 0.95) <= truth ? 1 : 0;
    }
    assertThat(covered / (double) trials).isBetween(0.93, 0.97);
  }

  /** Exactly: the bound of normal results covers their index as often as it says. */
  @Test
  void boundsNormalResultsExactly() {
    SplittableRandom random = new SplittableRandom(9);
    double truth = 4 / 3.0;
    int covered = 0;
    int trials = 4000;
    for (int i = 0; i < trials; i++) {
      Shape shape = Shape.of(DoubleStream.generate(random::nextGaussian).limit(30).toArray(), null);
      covered += shape.lowerBound(shape.index(4, Tail.HIGH), Tail.HIGH, 0.9) <= truth ? 1 : 0;
    }
    // 3600 expected, with a standard deviation of 19.
    assertThat(covered).isBetween(3530, 3670);
  }

  @Test
  void refusesWhatWouldMislead() {
    assertRefused(normalScores(29, 10, 1), 12.0, "at least 30 results");
    assertRefused(normalScores(40, 10, 1), null, "specification limit");
    assertRefused(new double[40], 12.0, "not all equal");
    // Two levels of 50 results each: no transform makes one of them.
    double[] two =
        DoubleStream.concat(
                Arrays.stream(normalScores(50, 10, 0.1)), Arrays.stream(normalScores(50, 20, 0.1)))
            .toArray();
    assertRefused(two, 30.0, "two products or levels");
  }

  private static void assertRefused(double[] values, Double upper, String reason) {
    assertThatThrownBy(() -> Capability.of(values, null, upper, 0.95))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(reason);
  }

  @ParameterizedTest
  @CsvSource({"0.49", "0.9999", "NaN"})
  void refusesOtherConfidences(double confidence) {
    assertThatThrownBy(() -> Capability.of(normalScores(40, 0, 1), null, 3.0, confidence))
        .isInstanceOf(IllegalArgumentException.class);
  }

  /** Results spread as a normal distribution is: its quantiles at (i - 1/2)/n. */
  private static double[] normalScores(int n, double mean, double sd) {
    double[] values = new double[n];
    for (int i = 0; i < n; i++) {
      values[i] = mean + sd * NORMAL.inverseCumulativeProbability((i + 0.5) / n);
    }
    return values;
  }
}
