package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sapotrace.controlchart.Published;

class AutocorrelationTest {

  // Certified values: NIST Statistical Reference Datasets; Q over one lag computed:
  // worked-examples.json S1 to S7. The values of NumAcc4, near 1e7, differ by 0.1, of which a
  // double
  // holds 8 digits.
  @ParameterizedTest
  @CsvSource({
    "S1, NumAcc1, 15", "S2, NumAcc2, 12", "S4, NumAcc4, 8",
    "S5, Michelso, 12", "S6, Mavro, 12", "S7, Lew, 12"
  })
  void reachesTheCertifiedDigits(String id, String series, int digits) {
    JsonNode expected = Published.example(id);
    Autocorrelation found = Autocorrelation.of(Published.series(series), 1);

    double relative = Math.pow(10, -digits);
    double r1 = expected.at("/certified/r1").asDouble();
    assertThat(found.lag1()).isCloseTo(r1, within(Math.abs(r1) * relative));
    double q = expected.at("/extra/ljung_box_Q1").asDouble();
    assertThat(found.ljungBox()).isCloseTo(q, within(q * Math.max(relative * 10, 1e-12)));
  }

  // worked-examples.json lb_…, computed.
  @ParameterizedTest
  @CsvSource({
    "lb_nile_1, nile",
    "lb_zarr13_10, zarr13",
    "lb_randn_10, randn",
    "lb_loan_cost_4, loan_cost",
    "lb_strd_Lew_10, Lew",
    "lb_strd_Michelso_10, Michelso"
  })
  void agreesWithOtherPrograms(String id, String series) {
    JsonNode expected = Published.example(id);
    int lags = expected.get("h").asInt();
    Autocorrelation found = Autocorrelation.of(Published.series(series), lags);

    assertThat(found.lag1()).isCloseTo(expected.at("/r/0").asDouble(), within(1e-9));
    double q = expected.get("Q").asDouble();
    assertThat(found.ljungBox()).isCloseTo(q, within(1e-9 * q));
    double p = expected.get("p").asDouble();
    assertThat(found.pValue()).isCloseTo(p, within(1e-7 * p));
  }

  // worked-examples.json LB-R4: the values of R, read in the tests of another program.
  @Test
  void agreesWithTheRegressionResidualsOfR() {
    JsonNode expected = Published.example("LB-R4").get("ljung_box_4");
    Autocorrelation found = Autocorrelation.of(AndersonDarlingTest.residuals(), 4);

    assertThat(found.ljungBox()).isCloseTo(expected.get("Q").asDouble(), within(1e-10));
    assertThat(found.pValue()).isCloseTo(expected.get("p").asDouble(), within(1e-10));
  }

  // Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 5.4: 10 lags, but not more
  // than a fifth of the results.
  @ParameterizedTest
  @CsvSource({"3, 1", "8, 1", "10, 2", "25, 5", "49, 9", "50, 10", "500, 10"})
  void looksAtAFifthOfTheResultsAndAtTenLagsAtMost(int n, int lags) {
    double[] values = new double[n];
    values[1] = 1;
    assertThat(Autocorrelation.of(values).lags()).isEqualTo(lags);
  }

  @Test
  void refusesWhatHasNone() {
    assertThatThrownBy(() -> Autocorrelation.of(new double[] {1, 2}))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("at least 3");
    assertThatThrownBy(() -> Autocorrelation.of(new double[] {4, 4, 4, 4}))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Autocorrelation.of(new double[] {1, 2, 3, 4}, 4))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Autocorrelation.of(new double[] {1, 2, Double.NaN, 4}))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
