package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;

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
}
