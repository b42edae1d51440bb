package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;

class PhaseTest {

  private static List<Phase> phases(ControlChart chart) {
    return Phase.of(chart.points(), TimeScale.of(chart, 320, 10), 320, 8);
  }

  @Test
  void leavesAGapWhereTheRevisionOfTheLimitsChanges() {
    // Four results at 10, 110, 210 and 310 px; the border lies halfway, at 160.
    ControlChart chart =
        new SampleChart()
            .points(30, 31)
            .limits(2, "adopted", 13.0, 20.0, 27.0)
            .points(20, 21)
            .build();
    List<Phase> phases = phases(chart);
    assertThat(phases).extracting(Phase::revision).containsExactly(1, 2);
    assertThat(phases).extracting(Phase::left).containsExactly(0.0, 164.0);
    assertThat(phases).extracting(Phase::right).containsExactly(156.0, 320.0);
    assertThat(phases.get(1).steps(Point::upper)).containsExactly(new Phase.Step(164, 320, 27.0));
  }

  @Test
  void stepsHalfwayWhereALimitChangesWithinAPhase() {
    ControlChart chart =
        new SampleChart()
            .points(30, 31)
            .limits(1, "adopted", null, 31.2, 45.0)
            .points(30, 31)
            .build();
    Phase phase = phases(chart).get(0);
    assertThat(phase.steps(Point::upper))
        .containsExactly(new Phase.Step(0, 160, 43.0), new Phase.Step(160, 320, 45.0));
    assertThat(phase.steps(Point::lower)).containsExactly(new Phase.Step(0, 160, 19.4));
    assertThat(phase.xs()).containsExactly(new double[] {10, 110, 210, 310}, within(1e-9));
  }

  @Test
  void hasNoPhaseWithoutResults() {
    assertThat(phases(new SampleChart().build())).isEmpty();
  }
}
