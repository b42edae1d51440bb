package org.sapotrace.runlength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.RunRule;

class WantedTest {

  // Source: cusum_design.csv.
  @ParameterizedTest
  @ValueSource(doubles = {0.25, 0.375, 0.5, 0.625, 0.75, 1, 1.25, 1.5})
  void findsTheDecisionValueOfACusum(double reference) {
    String column = "h_for_k=" + Double.toString(reference).replaceFirst("\\.0$", "");
    for (Published.Row row : Published.rows("cusum_design.csv")) {
      Wanted wanted = new Wanted(row.number("ARL0_two_sided"), 2 * reference);
      assertThat(wanted.decision().orElseThrow()).isCloseTo(row.number(column), within(1e-6));
    }
  }

  @Test
  void findsTheWidthOfAnEwma() {
    // Source, computed: with exact limits an EWMA of 0.05 runs 370 results with a width of 2.523.
    assertThat(new Wanted(370.4, 1).width(0.05)).isCloseTo(2.523, within(2e-3));
  }

  @ParameterizedTest
  @CsvSource({"10, 0.1", "243.5, 1.6", "365.25, 1", "5000, 2.5", "1000000, 6"})
  void suggestsChartsThatRunAsWanted(double inControl, double shift) {
    List<Suggestion> suggestions = new Wanted(inControl, shift).suggestions();
    assertThat(suggestions).hasSizeGreaterThanOrEqualTo(4);
    for (Suggestion each : suggestions) {
      AverageRunLength run = new ChartDesign(each.detectors(), false).averageRunLengths(0).get(0);
      assertThat(run.mean()).isEqualTo(each.inControl()).isGreaterThanOrEqualTo(inControl);
    }
    assertThat(suggestions).extracting(Suggestion::atShift).isSorted();
    assertThat(suggestions.get(0).atShift()).isLessThan(inControl);
  }

  @Test
  void namesSettingsByHundredths() {
    List<Suggestion> suggestions = new Wanted(365.25, 1).suggestions();
    // Source: the next hundredth above 2.523, and above 4.7706, where a CUSUM runs 365.25.
    assertThat(suggestions)
        .extracting(each -> each.detectors().ewma())
        .anyMatch(ewma -> ewma != null && ewma.lambda() == 0.05 && ewma.width() == 2.52);
    assertThat(suggestions)
        .extracting(each -> each.detectors().cusum())
        .anyMatch(cusum -> cusum != null && cusum.reference() == 0.5 && cusum.decision() == 4.77);
    assertThat(suggestions.get(0).reason())
        .startsWith("It finds the shift after 9.")
        .contains("one false alarm in 36");
  }

  @Test
  void leavesControlLimitsOutWhereTheyAloneRaiseTooManyFalseAlarms() {
    Detectors limitsAlone = new Detectors(Set.of(RunRule.BEYOND_LIMITS), null, null);
    assertThat(new Wanted(370.39, 1).suggestions())
        .extracting(Suggestion::detectors)
        .contains(limitsAlone);
    assertThat(new Wanted(370.41, 1).suggestions())
        .extracting(Suggestion::detectors)
        .doesNotContain(limitsAlone)
        .allMatch(detectors -> detectors.rules().isEmpty());
  }

  @Test
  void leavesOutACusumThatNeverRunsAsWanted() {
    // At a reference value of 3 even the narrowest CUSUM runs 370 results.
    assertThat(new Wanted(300, 6).decision()).isEmpty();
    assertThat(new Wanted(1e6, 0.1).decision()).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "9.999, 1, Ask for one in 10 to one in a million",
    "1000001, 1, one false alarm in 1000000 results|one false alarm in 1.000001E+6 results",
    "NaN, 1, Ask for one in 10",
    "370, 0.0999, from 0.1 to 6",
    "370, 6.001, from 0.1 to 6",
    "370, NaN, from 0.1 to 6"
  })
  void refusesWhatNoChartIsMadeFor(double inControl, double shift, String says) {
    assertThatThrownBy(() -> new Wanted(inControl, shift))
        .isInstanceOf(IllegalArgumentException.class)
        .satisfies(refusal -> assertThat(refusal.getMessage()).containsAnyOf(says.split("\\|")));
  }
}
