package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

import java.util.Collections;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ForecastTest {

  @ParameterizedTest
  @CsvSource({"NaN, 1", "Infinity, 1", "1, NaN", "1, -1", "1, Infinity"})
  void refusesParametersThatAreNoEstimates(double value, double standardError) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Forecast.Parameter("tau", value, standardError, "L"))
        .withMessageContaining("tau");
  }

  @ParameterizedTest
  @CsvSource({
    "1, 2, 3, 50",
    "1, -1, 3, 50",
    "4, 2, 3, 50",
    "NaN, 2, 3, 50",
    "2, NaN, 3, 50",
    "2, 1, NaN, 50",
    "Infinity, 1, Infinity, 50",
    "2, 1, 3, NaN"
  })
  void refusesWhatIsLeftOutsideItsInterval(double value, double lower, double upper, double limit) {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> new Forecast.Remaining("volume", value, lower, upper, "L", limit));
  }

  /** Numbers that can be recorded, but whose squares cannot be computed. */
  @Test
  void estimatesNothingFromSlipsBeyondReason() {
    List<Forecast> forecasts =
        List.of(
            Breakthrough.of(
                new Breakthrough.Tower(Throughput.LITRES, 66.2, 1.6, 0.88),
                IntStream.range(0, 8)
                    .mapToObj(i -> new Breakthrough.Reading(i * 1e300, Math.exp(i) / 20, 1200.0))
                    .toList()),
            WaterWash.stagesNeeded(
                WashScheme.CROSS_FLOW,
                1,
                Collections.nCopies(3, new WaterWash.Batch(1e300, 1)),
                1200,
                66.2),
            Trend.towards(
                IntStream.range(0, 8).mapToObj(i -> new Trend.Reading(i, 1e300 * i * i)).toList(),
                new Trend.Limit(66.2, true, "mg/kg"),
                "d"));

    assertThat(forecasts)
        .allMatch(Forecast.Insufficient.class::isInstance)
        .allMatch(each -> each.reason().contains("look for a slip"));
  }
}
