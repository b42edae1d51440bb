package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.List;
import java.util.function.IntToDoubleFunction;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class ControlChartConstantsTest {

  private static final List<String> TABLE = Published.lines("constants.csv");

  static Stream<Arguments> constants() {
    Stream<Arguments> fundamental =
        Stream.of(
            Arguments.of("d2", (IntToDoubleFunction) ControlChartConstants::d2),
            Arguments.of("d3", (IntToDoubleFunction) ControlChartConstants::d3),
            Arguments.of("c4", (IntToDoubleFunction) ControlChartConstants::c4));
    Stream<Arguments> derived =
        Arrays.stream(LimitFactor.values())
            .map(factor -> Arguments.of(factor.name(), (IntToDoubleFunction) factor::of));
    return Stream.concat(fundamental, derived);
  }

  // Source: constants.csv, 14 digits, computed by independent code.
  @ParameterizedTest(name = "{0}")
  @MethodSource("constants")
  void agreesWithTheTableOfConstants(String name, IntToDoubleFunction constant) {
    int column = List.of(TABLE.get(0).split(",")).indexOf(name);
    assertThat(column).isPositive();
    for (String row : TABLE.subList(1, TABLE.size())) {
      String[] cells = row.split(",");
      double expected = Double.parseDouble(cells[column]);
      assertThat(constant.applyAsDouble(Integer.parseInt(cells[0])))
          .as("%s for n = %s", name, cells[0])
          .isCloseTo(expected, within(1e-12 * Math.abs(expected)));
    }
  }

  // Closed forms: the mean range is 2/√π of two and 3/√π of three results.
  @Test
  void givesTheClosedFormsOfTheMeanRange() {
    assertThat(ControlChartConstants.d2(2)).isEqualTo(2 / Math.sqrt(Math.PI));
    assertThat(ControlChartConstants.d2(3)).isCloseTo(3 / Math.sqrt(Math.PI), within(1e-14));
  }

  // From the definition, since Γ((n+1)/2) = (n-1)/2 Γ((n-1)/2).
  @ParameterizedTest
  @ValueSource(ints = {2, 3, 4, 25, 101, 10_000, 1_000_000})
  void keepsTheProductOfSuccessiveC4(int n) {
    assertThat(ControlChartConstants.c4(n) * ControlChartConstants.c4(n + 1))
        .isCloseTo(Math.sqrt((n - 1.0) / n), within(1e-14));
  }

  @ParameterizedTest
  @ValueSource(ints = {-1, 0, 1, 26})
  void refusesRangesOfOtherSizes(int n) {
    for (IntToDoubleFunction constant :
        List.<IntToDoubleFunction>of(
            ControlChartConstants::d2, ControlChartConstants::d3, LimitFactor.D4::of)) {
      assertThatThrownBy(() -> constant.applyAsDouble(n))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessage(
              "A range is taken of 2 to 25 results, not "
                  + n
                  + ". Use the standard deviation for more.");
    }
  }

  @Test
  void refusesTheStandardDeviationOfOneResult() {
    assertThatThrownBy(() -> ControlChartConstants.c4(1))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("A standard deviation needs at least 2 results, not 1.");
  }
}
