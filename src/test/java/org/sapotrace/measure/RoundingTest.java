package org.sapotrace.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class RoundingTest {

  // JCGM 100:2008, 7.2.6: the uncertainty to two figures, the value to the same place.
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "608.9    | 24.48    | 609 ± 24",
        "35.1234  | 3.21     | 35.1 ± 3.2",
        "35       | 3        | 35.0 ± 3.0",
        "0.10214  | 0.00020  | 0.10214 ± 0.00020",
        "1        | 0.5      | 1.00 ± 0.50",
        "15386.8  | 1234     | 15400 ± 1200",
        "0.4      | 1234     | 0 ± 1200",
        "100      | 0.0995   | 100.00 ± 0.10",
        "100      | 0.0994   | 100.000 ± 0.099",
        "612.3    | 99.6     | 610 ± 100",
        "-3.04    | 24.4     | -3 ± 24",
        "-0.04    | 24.4     | 0 ± 24",
        "35.123456 | 0       | 35.12 ± 0",
        "1e300    | 2e299    | 1E+300 ± 2E+299",
        "35.1     | 1e-300   | 35.1 ± 1E-300",
        "1e-12    | 0.5      | 0.00 ± 0.50",
      })
  void writesAValueToThePlaceOfItsUncertainty(double value, double expanded, String text) {
    assertThat(Rounding.of(value, expanded)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({
    "66.2, 66.2",
    "66.20725, 66.21",
    "1234.5, 1234.5",
    "5, 5",
    "0, 0",
    "-0.0, 0",
    "100000, 100000",
    "0.000001, 0.000001",
    "1e300, 1E+300",
    "1e-30, 1E-30",
    "NaN, not a number",
    "Infinity, infinite",
    "-Infinity, minus infinite"
  })
  void writesANumberAsTypedOrToFourFigures(double value, String text) {
    assertThat(Rounding.of(value)).isEqualTo(text);
  }

  @ParameterizedTest
  @CsvSource({
    "0.949999, 94 %",
    "0.95, 95 %",
    "0.57, 57 %",
    "0.5, 50 %",
    "0.500001, 50 %",
    "0.499999, 50 %",
    "0.29, 29 %",
    "0.050001, 6 %",
    "0.05, 5 %",
    "0.99, 99 %",
    "0.990001, over 99 %",
    "1, over 99 %",
    "0.01, 1 %",
    "0.009999, under 1 %",
    "0, under 1 %"
  })
  void neverMakesAChanceSoundSurerThanItIs(double probability, String text) {
    assertThat(Rounding.percent(probability)).isEqualTo(text);
  }
}
