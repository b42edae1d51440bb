package org.sapotrace.chemistry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;
import org.sapotrace.testing.ChemistryReference;

class SampleDensityTest {

  static Iterable<JsonNode> rows() {
    return StreamSupport.stream(
            ChemistryReference.entry("density").required("rows").spliterator(), false)
        .toList();
  }

  @ParameterizedTest
  @MethodSource("rows")
  void followsTheTemperatureOfTheFuel(JsonNode row) {
    Density at15 = new Density(ChemistryReference.entry("density").required("rho15").doubleValue());
    SampleDensity fuel = SampleDensity.fuel(Measured.exactly(at15));
    Temperature temperature = new Temperature(row.required("T").doubleValue());

    assertThat(fuel.at(temperature).kilogramsPerCubicMetre())
        .isCloseTo(row.required("rho").doubleValue(), within(0.05));
    assertThat(fuel.mass(new Volume(12), temperature).grams())
        .isCloseTo(row.required("massOf12mL").doubleValue(), within(0.0005));
  }

  // 0.7914 g/mL at 20 degC, -0.00094 g/mL per degC (from memory).
  @ParameterizedTest
  @CsvSource({"20, 791.4", "30, 782.0", "15, 796.1"})
  void followsTheTemperatureOfMethanol(double celsius, double density) {
    assertThat(SampleDensity.methanol().at(new Temperature(celsius)).kilogramsPerCubicMetre())
        .isCloseTo(density, within(1e-9));
  }

  @Test
  void assumes880WithAnUncertaintyOf10() {
    assertThat(SampleDensity.assumedFuel().atReference())
        .isEqualTo(Measured.of(new Density(880), 10));
  }

  @Test
  void rejectsASlopeThatIsNoNumber() {
    assertThatIllegalArgumentException()
        .isThrownBy(
            () ->
                new SampleDensity(
                    Measured.exactly(new Density(880)), new Temperature(15), Double.NaN))
        .withMessage("The change of density with temperature is no number.");
  }
}
