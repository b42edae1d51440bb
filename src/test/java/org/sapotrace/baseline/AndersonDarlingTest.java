package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.controlchart.Published;

class AndersonDarlingTest {

  // worked-examples.json AD-…, computed and cross-checked with a general numerical library. All
  // four pieces of the p-value are among them.
  @ParameterizedTest
  @CsvSource({
    "AD-nist_boxcox, nist_boxcox", "AD-nist_flowrate, nist_flowrate", "AD-nile, nile",
    "AD-zarr13, zarr13", "AD-randn, randn", "AD-paint_viscosity, paint_viscosity",
    "ad_strd_Michelso, Michelso", "ad_strd_Lew, Lew"
  })
  void agreesWithOtherPrograms(String id, String series) {
    JsonNode expected = Published.example(id);
    AndersonDarling found = AndersonDarling.of(Published.series(series));

    assertThat(found.statistic()).isCloseTo(expected.get("A2").asDouble(), within(1e-6));
    double p = expected.get("p").asDouble();
    assertThat(found.pValue()).isCloseTo(p, within(1e-5 * p));
  }

  // worked-examples.json AD-R: the values of R's package nortest, read in the tests of another
  // program.
  @Test
  void agreesWithTheRegressionResidualsOfR() {
    JsonNode expected = Published.example("AD-R").get("ad");
    AndersonDarling found = AndersonDarling.of(residuals());

    assertThat(found.statistic()).isCloseTo(expected.get("A2").asDouble(), within(1e-10));
    assertThat(found.pValue()).isCloseTo(expected.get("p").asDouble(), within(1e-10));
  }

  // worked-examples.json ad_log_nist_boxcox and ad_bc_nist_boxcox, computed; the power is that of
  // N6.
  @ParameterizedTest
  @CsvSource({"ad_log_nist_boxcox, 0", "ad_bc_nist_boxcox, 0.275937279"})
  void agreesOnTransformedResults(String id, double lambda) {
    PowerTransform transform = new PowerTransform(lambda);
    double[] transformed =
        Arrays.stream(Published.series("nist_boxcox")).map(transform::apply).toArray();

    assertThat(AndersonDarling.of(transformed).statistic())
        .isCloseTo(Published.example(id).get("A2").asDouble(), within(1e-6));
  }

  /** At the borders of its pieces the published p-value jumps by a few parts in a thousand. */
  @Test
  void hasAPValueThatFallsFrom1To0() {
    double before = 1;
    for (int i = 0; i <= 2000; i++) {
      // A pair of outliers growing out of a normal sample.
      double[] values = normal(3, 40);
      values[0] = 0.02 * i;
      double p = AndersonDarling.of(values).pValue();
      assertThat(p).isBetween(0.0, 1.0);
      before = Math.min(before, p);
    }
    assertThat(before).isBetween(0.0, 1e-15);
  }

  /** Φ of the least standard score is 0 to a double. */
  @Test
  void survivesScoresWhoseProbabilityUnderflows() {
    double[] values = normal(4, 5000);
    values[17] = -1e7;
    AndersonDarling found = AndersonDarling.of(values);

    assertThat(found.statistic()).isBetween(100.0, 1e6);
    assertThat(found.pValue()).isPositive().isLessThan(1e-20);
  }

  @Test
  void rejectsNormalResultsAtItsLevel() {
    int rejected = 0;
    for (int i = 0; i < 4000; i++) {
      rejected += AndersonDarling.of(normal(1000 + i, 25)).pValue() < 0.05 ? 1 : 0;
    }
    // 200 expected, with a standard deviation of 14.
    assertThat(rejected).isBetween(145, 255);
  }

  @Test
  void refusesFewAndEqualResults() {
    assertThatThrownBy(() -> AndersonDarling.of(new double[] {1, 2, 3, 4, 5, 6, 7}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("at least 8");
    assertThatThrownBy(() -> AndersonDarling.of(new double[10]))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> AndersonDarling.of(new double[] {1, 2, 3, 4, 5, 6, 7, Double.NaN}))
        .isInstanceOf(IllegalArgumentException.class);
  }

  static double[] residuals() {
    return Published.lines("macro_residuals.csv").stream()
        .skip(1)
        .mapToDouble(Double::parseDouble)
        .toArray();
  }

  private static double[] normal(long seed, int count) {
    SplittableRandom random = new SplittableRandom(seed);
    return random.doubles(count).map(ignored -> random.nextGaussian()).toArray();
  }
}
