package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Collections;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SubgroupTest {

  // By hand: deviations -2, 0, 2; s² = 8/2.
  @Test
  void tellsMeanAndScatter() {
    Subgroup subgroup = new Subgroup(List.of(5.0, 1.0, 3.0));
    assertThat(subgroup.size()).isEqualTo(3);
    assertThat(subgroup.mean()).isEqualTo(3);
    assertThat(subgroup.range()).isEqualTo(4);
    assertThat(subgroup.standardDeviation()).isCloseTo(2, within(1e-15));
  }

  @Test
  void isAsItIsWhereItHasOneValue() {
    Subgroup single = Subgroup.of(0.1);
    assertThat(single.mean()).isEqualTo(0.1);
    assertThat(single.range()).isNaN();
    assertThat(single.standardDeviation()).isNaN();
    assertThat(Spread.RANGE.hasLimits(1)).isFalse();
    assertThat(Spread.STANDARD_DEVIATION.hasLimits(1)).isFalse();
  }

  // By hand: ln 1, ln 4 and ln 16 have the mean ln 4; a value at 0 has no logarithm.
  @Test
  void isTakenToAScaleValueByValue() {
    Subgroup subgroup = new Subgroup(List.of(1.0, 4.0, 16.0));
    assertThat(Plotting.LOG.plotted(subgroup).mean()).isCloseTo(Math.log(4), within(1e-15));
    assertThat(Plotting.LOG.plotted(subgroup).range()).isCloseTo(Math.log(16), within(1e-15));
    assertThat(Plotting.LOG.shownMean(subgroup)).isCloseTo(4, within(1e-14));
    assertThat(Plotting.LINEAR.shownMean(subgroup)).isEqualTo(7);
    Subgroup zero = new Subgroup(List.of(0.0, 4.0));
    assertThat(Plotting.LOG.takes(zero)).isFalse();
    assertThat(Plotting.LOG.shownMean(zero)).isEqualTo(2);
    ControlLimits limits = new ControlLimits(3, 0.5, false).ofMeans(4);
    assertThat(Plotting.LOG.judged(zero, limits)).isEqualTo(2);
  }

  @Test
  void hasUpToAHundredValues() {
    assertThat(new Subgroup(Collections.nCopies(100, 7.1)).standardDeviation()).isZero();
    for (int n : new int[] {0, 101}) {
      assertThatThrownBy(() -> new Subgroup(Collections.nCopies(n, 7.1)))
          .isInstanceOf(IllegalArgumentException.class)
          .hasMessage("A subgroup has 1 to 100 values, not " + n + ".");
    }
  }

  @ParameterizedTest
  @ValueSource(doubles = {Double.NaN, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY})
  void refusesWhatIsNotFinite(double value) {
    assertThatThrownBy(() -> new Subgroup(List.of(1.0, value)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("finite numbers");
  }
}
