package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.Published;

class PettittTest {

  // worked-examples.json P-…, computed; the Nile's 1617 and 3.591e-7 are also what R is remembered
  // to print.
  @ParameterizedTest
  @CsvSource({"P-nile, nile", "P-nist_cusum, nist_cusum", "P-montgomery_cusum, montgomery_cusum"})
  void agreesWithOtherPrograms(String id, String series) {
    JsonNode expected = Published.example(id).get("pettitt");
    Pettitt found = Pettitt.of(Published.series(series));

    assertThat(found.statistic()).isEqualTo(expected.get("K").asDouble());
    assertThat(found.before()).isEqualTo(expected.get("t").asInt());
    double p = expected.get("p_approx").asDouble();
    assertThat(found.pValue()).isCloseTo(p, within(1e-6 * p));
  }

  /** Σ of the signs of all differences across the cut, which is how the test is defined. */
  @Test
  void countsSignsAcrossTheCut() {
    SplittableRandom random = new SplittableRandom(3);
    for (int i = 0; i < 200; i++) {
      double[] values = random.ints(12, 0, 6).asDoubleStream().toArray();
      double largest = 0;
      for (int t = 1; t < values.length; t++) {
        largest = Math.max(largest, Math.abs(signs(values, t)));
      }
      assertThat(Pettitt.of(values).statistic()).isEqualTo(largest);
    }
  }

  private static double signs(double[] values, int cut) {
    double sum = 0;
    for (int i = 0; i < cut; i++) {
      for (int j = cut; j < values.length; j++) {
        sum += Math.signum(values[i] - values[j]);
      }
    }
    return sum;
  }

  @Test
  void findsNoChangeInEqualResults() {
    Pettitt found = Pettitt.of(new double[] {5, 5, 5, 5});
    assertThat(found.statistic()).isZero();
    assertThat(found.pValue()).isEqualTo(1);
  }

  @Test
  void refusesOneResult() {
    assertThatThrownBy(() -> Pettitt.of(new double[] {1}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("at least 2");
  }
}
