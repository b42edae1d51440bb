package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.washmodel.Forecasts.expected;
import static org.sapotrace.washmodel.Forecasts.parameter;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.measure.WeightedLine;
import org.sapotrace.washmodel.Trend.Limit;
import org.sapotrace.washmodel.Trend.Reading;

class TrendTest {

  private static final Limit LIMIT = new Limit(66.2, true, "mg/kg");

  /**
   * Computed with numpy (polyfit) and by hand: y = 40, 42, 44, 46, 47 on days 0 to 4 have b = 1.8,
   * a = 40.2, s² = 0.4/3, S = 10 and t = 3.182446 for 3 degrees of freedom. 66.2 is reached on day
   * 26/1.8; the ends are 2 more than the roots of (43.8 - 66.2 + 1.8 x)² = t² s² (1 + 1/5 + x²/10).
   */
  @Test
  void countsTheDaysToTheLimit() {
    Forecast forecast = Trend.towards(readings(40, 42, 44, 46, 47), LIMIT, "d");
    Forecast.Remaining left = expected(forecast).remaining();

    assertThat(parameter("slope", forecast).value()).isCloseTo(1.8, within(1e-12));
    assertThat(parameter("slope", forecast).standardError()).isCloseTo(0.1154701, within(1e-6));
    assertThat(parameter("slope", forecast).unit()).isEqualTo("mg/kg/d");
    assertThat(parameter("level", forecast).value()).isCloseTo(47.4, within(1e-12));
    assertThat(parameter("level", forecast).standardError()).isCloseTo(0.2828427, within(1e-6));
    assertThat(left.value()).isCloseTo(26 / 1.8 - 4, within(1e-9));
    assertThat(left.lower()).isCloseTo(8.2379263, within(1e-5));
    assertThat(left.upper()).isCloseTo(13.7334188, within(1e-5));
    assertThat(left.unit()).isEqualTo("d");
    assertThat(forecast.reason())
        .isEqualTo(
            "The slope is 1.80 ± 0.37 mg/kg/d; the level is 47.4, the limit 66.2 mg/kg, reached in"
                + " 10.44 d (95 %: 8.238 to 13.73).");
  }

  /** Computed: b = 0.6 and s(b) = sqrt(0.1/5) = 0.141421, but t is 4.302653 for 2 degrees. */
  @Test
  void seesNoTrendThatMayAsWellBeNone() {
    Forecast forecast = Trend.towards(readings(40, 41, 41, 42), LIMIT, "d");

    assertThat(forecast).isInstanceOf(Forecast.NoTrend.class);
    assertThat(forecast.reason())
        .isEqualTo(
            "The slope is 0.60 ± 0.61 mg/kg/d, which may as well be 0; the level is 41.9, the limit"
                + " 66.2 mg/kg.");
    assertThat(Trend.towards(readings(40, 40, 40, 40), LIMIT, "d"))
        .isInstanceOf(Forecast.NoTrend.class);
  }

  @Test
  void expectsNothingOfATrendAwayFromTheLimit() {
    Limit lower = new Limit(30, false, "mg/kg");
    List<Reading> rising = readings(40, 42, 44, 46, 47);

    assertThat(Trend.towards(rising, lower, "d").reason()).contains("away from the limit");
    assertThat(
            expected(Trend.towards(readings(47, 46, 44, 42, 40), lower, "d")).remaining().value())
        .isCloseTo((40.2 - 30) / 1.8, within(1e-9));
  }

  @Test
  void hasNothingLeftBeyondTheLimit() {
    Forecast forecast = Trend.towards(readings(68, 70, 72, 74, 75), LIMIT, "d");

    assertThat(expected(forecast).remaining())
        .isEqualTo(new Forecast.Remaining("time", 0, 0, 0, "d", 66.2));
  }

  /** A tank that rests at 80 mg/kg, and one that falls from there, but is not within the limit. */
  @ParameterizedTest
  @ValueSource(doubles = {0, -1, 2})
  void saysThatTheLimitIsPassedWhicheverWayTheResultsGo(double slope) {
    Forecast forecast =
        Trend.towards(
            readings(80, 80.2 + slope, 79.8 + 2 * slope, 80.1 + 3 * slope, 80 + 4 * slope),
            LIMIT,
            "d");
    Forecast below =
        Trend.towards(
            readings(8, 8.2 - slope, 7.8 - 2 * slope, 8.1 - 3 * slope, 8 - 4 * slope),
            new Limit(20, false, "mg/kg"),
            "d");

    for (Forecast passed : List.of(forecast, below)) {
      assertThat(expected(passed).remaining().value()).isZero();
      assertThat(expected(passed).remaining().lower()).isZero();
      assertThat(passed.reason()).endsWith("which is passed already.").doesNotContain("away");
    }
  }

  @Test
  void followsALineWithoutScatter() {
    Forecast.Remaining left =
        expected(Trend.towards(readings(40, 42, 44, 46), LIMIT, "d")).remaining();

    assertThat(left.lower()).isCloseTo(10.1, within(1e-6));
    assertThat(left.value()).isCloseTo(10.1, within(1e-6));
    assertThat(left.upper()).isCloseTo(10.1, within(1e-6));
  }

  /**
   * Computed by hand and with Python: 40, 42, 44, 46 lie on a line, b = 2, S = 5, and with u = 1.6
   * each s(b) = 1.6 / sqrt(5); the ends are roots of (43 - 66.2 + 2 x)² = (1.959964 * 1.6)² (1 +
   * 1/4 + x²/5), 1.5 less.
   */
  @Test
  void isNoSurerThanTheResultsThemselves() {
    Forecast forecast =
        Trend.towards(
            IntStream.range(0, 4).mapToObj(i -> new Reading(i, 40 + 2 * i, 1.6)).toList(),
            LIMIT,
            "d");
    Forecast.Remaining left = expected(forecast).remaining();

    assertThat(parameter("slope", forecast).standardError()).isCloseTo(0.7155418, within(1e-6));
    assertThat(parameter("level", forecast).standardError()).isCloseTo(1.3386560, within(1e-6));
    assertThat(left.value()).isCloseTo(10.1, within(1e-9));
    assertThat(left.lower()).isCloseTo(5.1308402, within(1e-5));
    assertThat(left.upper()).isCloseTo(37.5121012, within(1e-5));
    assertThat(
            Trend.towards(
                IntStream.range(0, 4).mapToObj(i -> new Reading(i, 40 + 2 * i, 2.4)).toList(),
                LIMIT,
                "d"))
        .isInstanceOf(Forecast.NoTrend.class);
  }

  /** The line weighted by uncertainties that are all the same, with a Birge ratio of 1 at least. */
  @ParameterizedTest
  @ValueSource(doubles = {0.1, 0.3, 0.5, 2})
  void hasTheStandardErrorsOfTheWeightedLine(double uncertainty) {
    double[] values = {40, 42, 44, 46, 47};
    Forecast forecast =
        Trend.towards(
            IntStream.range(0, values.length)
                .mapToObj(i -> new Reading(i, values[i], uncertainty))
                .toList(),
            LIMIT,
            "d");
    WeightedLine line =
        WeightedLine.through(
            IntStream.range(0, values.length)
                .mapToObj(i -> new WeightedLine.Observation(i, values[i], uncertainty))
                .toList());
    List<Forecast.Parameter> parameters =
        forecast instanceof Forecast.NoTrend none
            ? none.parameters()
            : expected(forecast).parameters();

    assertThat(parameters.get(0).value()).isCloseTo(line.slope(), within(1e-9));
    assertThat(parameters.get(0).standardError())
        .isCloseTo(line.slopeStandardError(), within(1e-9));
  }

  /**
   * Of seeded tanks, the time at which a result with its own scatter lies at the limit: 20 + 0.5 t
   * + e = 30. What is known of the scatter is nothing, all of it, or half, with a Birge ratio of 2.
   */
  @ParameterizedTest
  @CsvSource({
    "8, 0.3, 0",
    "12, 0.5, 0",
    "6, 0.1, 0",
    "8, 0.3, 0.3",
    "12, 0.5, 0.5",
    "6, 0.1, 0.1",
    "8, 0.3, 0.15",
    "12, 0.5, 0.25",
    "6, 0.1, 0.05"
  })
  void coversTheTruthAsOftenAsItSays(int count, double scatter, double known) {
    SplittableRandom random = new SplittableRandom(20_261_125);
    int tanks = 1000;
    int held = 0;
    for (int tank = 0; tank < tanks; tank++) {
      List<Reading> readings =
          IntStream.range(0, count)
              .mapToObj(t -> new Reading(t, 20 + 0.5 * t + random.nextGaussian(0, scatter), known))
              .toList();
      Forecast forecast = Trend.towards(readings, new Limit(30, true, "mg/kg"), "d");
      double left = (10 - random.nextGaussian(0, scatter)) / 0.5 - (count - 1);
      if (forecast instanceof Forecast.Expected expected
          && expected.remaining().lower() <= left
          && left <= expected.remaining().upper()) {
        held++;
      }
    }

    assertThat(held / (double) tanks).isBetween(0.90, 0.99);
  }

  @Test
  void namesWhatIsMissing() {
    assertThat(Trend.towards(readings(40, 41, 42), LIMIT, "d"))
        .isEqualTo(
            new Forecast.Insufficient("A trend needs results at 4 different times; there are 3."));
  }

  @Test
  void refusesWhatIsNotFinite() {
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(Double.NaN, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, Double.NaN));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, 1, Double.NaN));
    assertThatIllegalArgumentException().isThrownBy(() -> new Reading(1, 1, -1));
    assertThatIllegalArgumentException().isThrownBy(() -> new Limit(Double.NaN, true, "mg/kg"));
  }

  private static List<Reading> readings(double... values) {
    return IntStream.range(0, values.length).mapToObj(i -> new Reading(i, values[i])).toList();
  }
}
