package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ControlLimitsTest {

  // NIST/SEMATECH e-Handbook 6.3.2.2, flow rates. The page divides by d2 rounded to 1.128 and so
  // prints limits 0.0017 further out; worked-examples.json N1 has both.
  @Test
  void agreesWithTheFlowRatesOfTheHandbook() {
    ControlLimits limits = movingRangeLimits("nist_flowrate");
    JsonNode exact = Published.example("N1").path("exact_d2");
    assertAgree(limits, exact, 1e-9);
    assertThat(limits.sigma()).isCloseTo(exact.path("sigma_mr").asDouble(), within(1e-9));

    JsonNode published = Published.example("N1").path("published");
    double rounding = limits.sigma() * (ControlChartConstants.d2(2) / 1.128 - 1);
    assertThat(limits.centre()).isCloseTo(published.path("mean").asDouble(), within(5e-5));
    assertThat(movingRanges(limits).centre())
        .isCloseTo(published.path("mr_bar").asDouble(), within(5e-5));
    assertThat(limits.upper() + 3 * rounding)
        .isCloseTo(published.path("ucl").asDouble(), within(1e-3));
    assertThat(limits.below(3) - 3 * rounding)
        .isCloseTo(published.path("lcl").asDouble(), within(1e-3));
  }

  // Montgomery, Introduction to Statistical Quality Control, loan costs: published limits to two
  // digits with d2 = 1.128, exact ones computed (worked-examples.json M4).
  @Test
  void agreesWithTheLoanCostsOfTheTextbook() {
    ControlLimits limits = movingRangeLimits("loan_cost");
    assertAgree(limits, Published.example("M4").path("exact"), 1e-9);
    assertAgree(limits, Published.example("M4").path("published"), 1.1e-2);
  }

  // Source: worked-examples.json, computed by independent code to 1e-8 or better.
  @ParameterizedTest
  @CsvSource({
    "M8, /imr, aspe_concentration",
    "SCR-nile-join, /0, nile",
    "SCR-zarr13-drop, /0, zarr13"
  })
  void agreesWithComputedLimits(String id, String pointer, String series) {
    assertAgree(movingRangeLimits(series), Published.example(id).at(pointer), 1e-8);
  }

  private static void assertAgree(ControlLimits limits, JsonNode expected, double tolerance) {
    assertThat(limits.centre()).isCloseTo(expected.path("mean").asDouble(), within(tolerance));
    assertThat(limits.upper()).isCloseTo(expected.path("ucl").asDouble(), within(tolerance));
    assertThat(limits.lower()).isCloseTo(expected.path("lcl").asDouble(), within(tolerance));
    assertThat(movingRanges(limits).centre())
        .isCloseTo(expected.path("mr_bar").asDouble(), within(tolerance));
    if (expected.has("mr_ucl")) {
      assertThat(movingRanges(limits).upper())
          .isCloseTo(expected.path("mr_ucl").asDouble(), within(tolerance));
    }
    assertThat(movingRanges(limits).lower()).isNull();
  }

  // NIST Statistical Reference Datasets: certified mean; moving range computed with more digits.
  @ParameterizedTest
  @CsvSource({"S2, NumAcc2", "S5, Michelso", "S6, Mavro", "S7, Lew"})
  void reachesTwelveDigitsOnReferenceDatasets(String id, String series) {
    ControlLimits limits = movingRangeLimits(series);
    double mean = Published.example(id).at("/certified/mean").asDouble();
    double sigma = Published.example(id).at("/extra/sigma_mr").asDouble();
    assertThat(limits.upper() / (mean + 3 * sigma)).isCloseTo(1, within(1e-12));
    assertThat(limits.below(3) / (mean - 3 * sigma)).isCloseTo(1, within(1e-12));
  }

  private static Spread.Limits movingRanges(ControlLimits limits) {
    return Spread.RANGE.limits(limits.sigma(), 2);
  }

  private static ControlLimits movingRangeLimits(String series) {
    return ControlLimits.from(Published.series(series), Dispersion.MOVING_RANGE, false);
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "RANGE")
  void moveAndScaleWithTheResults(Dispersion dispersion) {
    SplittableRandom random = new SplittableRandom(20260301);
    double[] values = random.doubles(40).map(u -> 20 + 30 * u).toArray();
    ControlLimits limits = ControlLimits.from(values, dispersion, false);
    double[] moved = Arrays.stream(values).map(x -> x + 1234.5).toArray();
    ControlLimits movedLimits = ControlLimits.from(moved, dispersion, false);
    double[] scaled = Arrays.stream(values).map(x -> 0.37 * x).toArray();
    ControlLimits scaledLimits = ControlLimits.from(scaled, dispersion, false);
    for (int k = 1; k <= 3; k++) {
      assertThat(movedLimits.above(k)).isCloseTo(limits.above(k) + 1234.5, within(1e-11));
      assertThat(movedLimits.below(k)).isCloseTo(limits.below(k) + 1234.5, within(1e-11));
      assertThat(scaledLimits.above(k)).isCloseTo(0.37 * limits.above(k), within(1e-12));
      assertThat(scaledLimits.below(k)).isCloseTo(0.37 * limits.below(k), within(1e-12));
    }
    assertThat(movingRanges(movedLimits).upper())
        .isCloseTo(movingRanges(limits).upper(), within(1e-11));
    assertThat(movingRanges(scaledLimits).upper())
        .isCloseTo(0.37 * movingRanges(limits).upper(), within(1e-12));
  }

  @Test
  void haveNoLowerBoundaryAtOrBelowZeroOfWhatCannotBeNegative() {
    ControlLimits limits = new ControlLimits(20, 10, true);
    assertThat(limits.lower()).isNull();
    assertThat(limits.below(2)).isNull();
    assertThat(limits.below(1)).isEqualTo(10);
    assertThat(new ControlLimits(Math.nextUp(20.0), 10, true).below(2)).isPositive();
    assertThat(new ControlLimits(20, 10, false).lower()).isEqualTo(-10);
  }

  @Test
  void measureTheDistanceInStandardDeviations() {
    assertThat(new ControlLimits(20, 4, true).z(14)).isEqualTo(-1.5);
  }

  @Test
  void refuseAShortBaseline() {
    assertThat(ControlLimits.from(ramp(8), Dispersion.MOVING_RANGE, false).centre()).isEqualTo(4.5);
    assertThatThrownBy(() -> ControlLimits.from(ramp(7), Dispersion.MOVING_RANGE, false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Control limits need a baseline of at least 8 results, not 7. Record more, or give"
                + " centre and sigma.");
  }

  private static double[] ramp(int n) {
    return DoubleStream.iterate(1, x -> x + 1).limit(n).toArray();
  }

  @ParameterizedTest
  @EnumSource(mode = EnumSource.Mode.EXCLUDE, names = "RANGE")
  void refuseABaselineOfEqualResults(Dispersion dispersion) {
    double[] equal = DoubleStream.generate(() -> 0.1).limit(20).toArray();
    assertThatThrownBy(() -> ControlLimits.from(equal, dispersion, true))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "The results of the baseline differ too little: their standard deviation by "
                + dispersion.id()
                + " comes out as 0. Read in finer steps or titrate more sample, take a longer"
                + " baseline, or give centre and sigma.");
  }

  @ParameterizedTest
  @CsvSource({"0, 0", "-1, -1", "NaN, not a number", "Infinity, infinite"})
  void refuseAStandardDeviationThatIsNone(double sigma, String written) {
    assertThatThrownBy(() -> new ControlLimits(10, sigma, true))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "Control limits need a finite standard deviation above 0, not " + written + ".");
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void refuseACentreThatIsNotFinite(double centre) {
    assertThatThrownBy(() -> new ControlLimits(centre, 1, true))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("The centre of control limits must be a finite number.");
  }

  @ParameterizedTest
  @CsvSource({"1, 1e-17, 1E-17", "0, 1e308, 1E+308"})
  void refuseAStandardDeviationOutOfProportion(double centre, double sigma, String written) {
    assertThatThrownBy(() -> new ControlLimits(centre, sigma, false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage(
            "A standard deviation of %s is out of proportion to a centre of %s. Give both in one unit.",
            written, Math.round(centre));
  }
}
