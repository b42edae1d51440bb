package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.stat.StatUtils;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.baseline.AndersonDarling;
import org.sapotrace.baseline.Autocorrelation;

class StartUpTest {

  // worked-examples.json Q-…, computed.
  @ParameterizedTest
  @CsvSource({"Q-nist_flowrate, nist_flowrate", "Q-nist_cusum, nist_cusum"})
  void agreesWithComputedStatistics(String id, String series) {
    JsonNode expected = Published.example(id);
    double[] q = statistics(Published.series(series));

    assertThat(q[0]).isNaN();
    assertThat(q[1]).isNaN();
    for (int i = 2; i < q.length; i++) {
      assertThat(q[i]).isCloseTo(expected.get(i).asDouble(), within(1e-8));
    }
  }

  // By hand: after 0 and 2, mean 1 and s² 2. For 4, t = √(2/3) 3/√2 = √3, of which Student's
  // distribution with one degree of freedom is 1/2 + atan(√3)/π = 5/6; the normal quantile of 5/6
  // is
  // 0.96742157 (any table).
  @Test
  void agreesWithAnExampleByHand() {
    StartUp two = StartUp.START.next(0).next(2);
    assertThat(two.q(4)).isCloseTo(0.96742157, within(1e-8));
    assertThat(two.q(-2)).isCloseTo(-0.96742157, within(1e-8));
    assertThat(two.q(1)).isZero();
  }

  /** Whatever mean and spread are, in control the statistics are unit normal and independent. */
  @Test
  void isUnitNormalAndIndependentInControl() {
    SplittableRandom random = new SplittableRandom(2);
    List<Double> all = new ArrayList<>();
    for (int run = 0; run < 400; run++) {
      double mean = 100 * random.nextGaussian();
      double sd = Math.exp(random.nextGaussian());
      StartUp state = StartUp.START;
      for (int i = 0; i < 22; i++) {
        double x = mean + sd * random.nextGaussian();
        if (i >= 2) {
          all.add(state.q(x));
        }
        state = state.next(x);
      }
    }
    double[] q = all.stream().mapToDouble(Double::doubleValue).toArray();
    assertThat(q).hasSize(8000);
    // Standard errors 0.011 and 0.016.
    assertThat(StatUtils.mean(q)).isCloseTo(0, within(0.035));
    assertThat(StatUtils.variance(q)).isCloseTo(1, within(0.05));
    assertThat(AndersonDarling.of(q).pValue()).isGreaterThan(0.01);
    assertThat(Autocorrelation.of(q).pValue()).isGreaterThan(0.01);
    long beyond = all.stream().filter(value -> Math.abs(value) > 3).count();
    assertThat(beyond / 8000.0)
        .isCloseTo(2 * new NormalDistribution().cumulativeProbability(-3), within(0.002));
  }

  @Test
  void hasNoStatisticWhileAllResultsAreEqual() {
    StartUp equal = StartUp.START.next(5).next(5).next(5);
    assertThat(equal.q(6)).isNaN();
    assertThat(equal.next(6).q(6)).isNotNaN();
  }

  @Test
  void endsAtEight() {
    StartUp state = StartUp.START;
    for (int i = 0; i < 60; i++) {
      state = state.next(i % 2);
    }
    assertThat(state.q(1e9)).isEqualTo(8);
    assertThat(state.q(-1e9)).isEqualTo(-8);
  }

  // worked-examples.json welford, computed.
  @Test
  void gathersMeanAndSquares() {
    StartUp state = StartUp.START;
    int i = 0;
    for (JsonNode row : Published.example("welford").get("trace")) {
      state = state.next(Published.series("nist_flowrate")[i++]);
      assertThat(state.count()).isEqualTo(row.get(0).asInt());
      assertThat(state.mean()).isCloseTo(row.get(1).asDouble(), within(1e-10));
      assertThat(state.squares()).isCloseTo(row.get(2).asDouble(), within(1e-10));
    }
  }

  @Test
  void refusesWhatIsNotFinite() {
    assertThatThrownBy(() -> StartUp.START.next(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new StartUp(-1, 0, 0)).isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new StartUp(1, 0, -1)).isInstanceOf(IllegalArgumentException.class);
  }

  private static double[] statistics(double[] values) {
    double[] q = new double[values.length];
    StartUp state = StartUp.START;
    for (int i = 0; i < values.length; i++) {
      q[i] = state.q(values[i]);
      state = state.next(values[i]);
    }
    return q;
  }
}
