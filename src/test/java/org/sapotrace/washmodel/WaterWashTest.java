package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.washmodel.Forecasts.coverage;
import static org.sapotrace.washmodel.Forecasts.expected;
import static org.sapotrace.washmodel.Forecasts.parameter;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.sapotrace.testing.ChemistryReference;

class WaterWashTest {

  @ParameterizedTest
  @CsvSource({"CROSS_FLOW, crossFlow", "COUNTER_CURRENT, counterCurrent"})
  void leavesWhatTheReferenceSays(WashScheme scheme, String column) {
    List<JsonNode> rows =
        ChemistryReference.rows("waterWash").stream().filter(row -> row.has(column)).toList();
    assertThat(rows).hasSize(1);
    JsonNode row = rows.get(0);
    for (int n = 1; n <= row.get(column).size(); n++) {
      assertThat(scheme.outlet(row.get("C0").asDouble(), row.get("E").asDouble(), n))
          .isCloseTo(row.get(column).get(n - 1).asDouble(), within(5e-3));
    }
  }

  /** For E = 1 the formula is 0/0, and its limit is C_0 / (n + 1). */
  @ParameterizedTest
  @CsvSource({"1", "1.000000001", "0.999999999"})
  void passesThroughEqualExtraction(double extraction) {
    WashScheme scheme = WashScheme.COUNTER_CURRENT;

    assertThat(scheme.outlet(1200, extraction, 3)).isCloseTo(300, within(1e-5));
    assertThat(scheme.stagesFor(extraction, Math.log(4))).isCloseTo(3, within(1e-6));
  }

  @ParameterizedTest
  @CsvSource({
    "CROSS_FLOW, 0.1, 1",
    "CROSS_FLOW, 3, 2",
    "CROSS_FLOW, 8, 5",
    "COUNTER_CURRENT, 0.1, 2",
    "COUNTER_CURRENT, 1, 3",
    "COUNTER_CURRENT, 3, 1",
    "COUNTER_CURRENT, 8, 5"
  })
  void findsTheExtractionAndTheStagesThatItCameFrom(WashScheme scheme, double e, int stages) {
    double removal = Math.log(1200 / scheme.outlet(1200, e, stages));

    assertThat(scheme.extraction(removal, stages)).isCloseTo(e, within(1e-9 * e));
    assertThat(scheme.stagesFor(e, removal)).isCloseTo(stages, within(1e-9));
  }

  /** Of counter-current stages with E = 0.5 none leave less than 1 - E. */
  @Test
  void saysWhereNoStagesSuffice() {
    WashScheme scheme = WashScheme.COUNTER_CURRENT;

    assertThat(scheme.stagesFor(0.5, Math.log(2.01))).isInfinite();
    assertThat(scheme.stagesFor(0.5, Math.log(1.99))).isFinite();
    assertThat(WaterWash.stagesNeeded(scheme, 1, washes(0.5), 1200, 66.2))
        .isInstanceOfSatisfying(
            Forecast.NoTrend.class,
            none -> assertThat(none.reason()).contains("However many stages", "66.2 mg/kg"));
  }

  /**
   * Computed: removals ln 3.9, ln 4 and ln 4.1 have the mean 1.386086, s = 0.025006 and so s(R) =
   * 0.014437; t for 2 degrees of freedom is 4.30265, the interval 1.323968 to 1.448204. One stage
   * has E = e^R - 1 = 2.999166, s(E) = e^R s(R). Wanted is ln(1200/66.2) = 2.897396.
   */
  @Test
  void tellsTheStagesNeededWithTheirInterval() {
    List<WaterWash.Batch> batches =
        List.of(
            new WaterWash.Batch(390, 100),
            new WaterWash.Batch(400, 100),
            new WaterWash.Batch(410, 100));
    Forecast forecast = WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 1, batches, 1200, 66.2);
    Forecast.Remaining stages = expected(forecast).remaining();

    assertThat(parameter("removal", forecast).value()).isCloseTo(1.386086, within(1e-6));
    assertThat(parameter("removal", forecast).standardError()).isCloseTo(0.014437, within(1e-6));
    assertThat(parameter("extraction factor", forecast).value()).isCloseTo(2.999166, within(1e-5));
    assertThat(parameter("extraction factor", forecast).standardError())
        .isCloseTo(3.999166 * 0.014437, within(1e-5));
    assertThat(stages.value()).isCloseTo(2.897396 / 1.386086, within(1e-5));
    assertThat(stages.lower()).isCloseTo(2.897396 / 1.448204, within(1e-5));
    assertThat(stages.upper()).isCloseTo(2.897396 / 1.323968, within(1e-5));
    assertThat(forecast.reason()).contains("1200 mg/kg", "66.2 mg/kg", "3 stages");
    // ln 3 = 1.098612 is less than what one stage removes.
    assertThat(WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 1, batches, 300, 100).reason())
        .endsWith("takes 1 stage.");
  }

  @Test
  void needsNoStageForWhatIsWithinTheLimit() {
    Forecast forecast = WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 1, washes(3), 50, 66.2);

    assertThat(expected(forecast).remaining().upper()).isZero();
  }

  @Test
  void namesWhatIsMissing() {
    assertThat(
            WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 1, washes(3).subList(0, 2), 1200, 66.2))
        .isEqualTo(
            new Forecast.Insufficient(
                "2 of the 3 batches that are needed have soap above 0 before and after the wash."));
  }

  @Test
  void expectsNothingOfAWashThatTakesNothingOff() {
    List<WaterWash.Batch> batches =
        List.of(
            new WaterWash.Batch(400, 420),
            new WaterWash.Batch(420, 400),
            new WaterWash.Batch(410, 405));

    assertThat(WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 1, batches, 1200, 66.2))
        .isInstanceOf(Forecast.NoTrend.class);
  }

  @ParameterizedTest
  @EnumSource
  void coversTheTruthAsOftenAsItSays(WashScheme scheme) {
    double truth = scheme.stagesFor(3, Math.log(1200 / 66.2));
    double coverage =
        coverage(
            400,
            truth,
            random ->
                WaterWash.stagesNeeded(
                    scheme,
                    2,
                    IntStream.range(0, 8)
                        .mapToObj(
                            i ->
                                new WaterWash.Batch(
                                    1200,
                                    scheme.outlet(1200, 3, 2)
                                        * Math.exp(random.nextGaussian(0, 0.13))))
                        .toList(),
                    1200,
                    66.2));

    assertThat(coverage).isBetween(0.90, 0.99);
  }

  @Test
  void refusesWhatHasNoMeaning() {
    assertThatIllegalArgumentException().isThrownBy(() -> new WaterWash.Batch(0, 1));
    assertThatIllegalArgumentException().isThrownBy(() -> new WaterWash.Batch(1, Double.NaN));
    assertThatIllegalArgumentException()
        .isThrownBy(() -> WaterWash.stagesNeeded(WashScheme.CROSS_FLOW, 0, washes(3), 1200, 66.2));
    for (WashScheme scheme : WashScheme.values()) {
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.outlet(Double.NaN, 3, 1));
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.outlet(1200, 0, 1));
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.outlet(1200, 3, -1));
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.stagesFor(3, 0));
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.extraction(51, 1));
      assertThatIllegalArgumentException().isThrownBy(() -> scheme.extraction(1, 0));
    }
  }

  /** Three batches about a wash of one stage with this extraction. */
  private static List<WaterWash.Batch> washes(double extraction) {
    return IntStream.range(-1, 2)
        .mapToObj(i -> new WaterWash.Batch(1000 * (1 + extraction) * (1 + 0.01 * i), 1000))
        .toList();
  }
}
