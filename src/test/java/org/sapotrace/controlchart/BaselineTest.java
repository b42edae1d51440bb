package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;

class BaselineTest {

  // worked-examples.json SCR-zarr13-drop, computed: without results 45, 46 and 189, 189 moving
  // ranges are left of 194.
  @Test
  void makesNoMovingRangeAcrossAGap() {
    JsonNode expected = Published.example("SCR-zarr13-drop").get(1);
    double[] all = Published.series("zarr13");
    Baseline baseline =
        Baseline.withGaps(
            List.of(
                Arrays.copyOfRange(all, 0, 44),
                Arrays.copyOfRange(all, 46, 188),
                Arrays.copyOfRange(all, 189, 195)));

    assertThat(baseline.size()).isEqualTo(expected.get("n").asInt());
    assertThat(baseline.movingRanges()).hasSize(expected.get("n_mr").asInt());
    ControlLimits limits = ControlLimits.from(baseline, Dispersion.MOVING_RANGE, false);
    assertThat(limits.centre()).isCloseTo(expected.get("mean").asDouble(), within(1e-10));
    assertThat(limits.upper()).isCloseTo(expected.get("ucl").asDouble(), within(1e-8));
    assertThat(limits.lower()).isCloseTo(expected.get("lcl").asDouble(), within(1e-8));
  }

  @Test
  void keepsTheOrderOfItsResults() {
    Baseline baseline = Baseline.withGaps(List.of(new double[] {3, 1}, new double[] {2}));
    assertThat(baseline.values()).containsExactly(3, 1, 2);
    assertThat(baseline.movingRanges()).containsExactly(2);
    assertThat(baseline.stretches()).hasSize(2);
  }

  @Test
  void needsNeighbours() {
    Baseline apart = Baseline.withGaps(List.of(new double[] {3}, new double[] {2}));
    assertThatThrownBy(() -> Dispersion.STANDARD_DEVIATION.sigma(apart))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("follow each other");
  }
}
