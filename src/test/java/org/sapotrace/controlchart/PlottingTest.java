package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class PlottingTest {

  @ParameterizedTest
  @EnumSource
  void findsAScaleByItsName(Scale scale) {
    assertThat(Scale.named(scale.id())).isEqualTo(scale);
  }

  @Test
  void refusesAnUnknownScale() {
    assertThatThrownBy(() -> Scale.named("square"))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("There is no scale \"square\". Use linear, log or box-cox.");
  }

  // By hand: ln e² = 2; (4^0.5 - 1)/0.5 = 2.
  @Test
  void putsResultsOnTheScale() {
    assertThat(Plotting.LINEAR.plotted(-3)).isEqualTo(-3);
    assertThat(Plotting.LOG.plotted(Math.exp(2))).isCloseTo(2, within(1e-15));
    assertThat(Plotting.boxCox(0.5).plotted(4)).isCloseTo(2, within(1e-15));
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e-3, 1, 35.2, 8e5})
  void bringsThemBack(double x) {
    for (Plotting plotting :
        new Plotting[] {
          Plotting.LINEAR, Plotting.LOG, Plotting.boxCox(-0.4), Plotting.boxCox(0.28)
        }) {
      assertThat(plotting.shown(plotting.plotted(x))).isCloseTo(x, within(x * 1e-12));
    }
  }

  // (1 + 0.5 y)² has no y below -2; (1 - 0.5 y)^-2 none above 2.
  @Test
  void hasNoLimitWhereNoResultCanLie() {
    assertThat(Plotting.boxCox(0.5).shown(-2.5)).isNull();
    assertThat(Plotting.boxCox(-0.5).shown(2.5)).isNull();
    assertThat(Plotting.LOG.shown(null)).isNull();
    assertThat(Plotting.LOG.shown(1000.0)).isNull();
  }

  @ParameterizedTest
  @ValueSource(doubles = {0, -0.0, -1})
  void judgesWhatHasNoPlaceOnTheScaleAsBelowIt(double x) {
    ControlLimits limits = new ControlLimits(3, 0.25, false);
    assertThat(Plotting.LOG.takes(x)).isFalse();
    assertThat(Plotting.LOG.judged(Subgroup.of(x), limits)).isEqualTo(2);
    assertThat(Plotting.LINEAR.judged(Subgroup.of(x), limits)).isEqualTo(x);
    assertThatThrownBy(() -> Plotting.LOG.plotted(x)).isInstanceOf(IllegalArgumentException.class);
  }

  // dy/dx: 1, 1/x, x^(lambda - 1).
  @Test
  void knowsHowMuchTheScaleMovesWithAResult() {
    assertThat(Plotting.LINEAR.slope(4)).isEqualTo(1);
    assertThat(Plotting.LOG.slope(4)).isEqualTo(0.25);
    assertThat(Plotting.boxCox(0.5).slope(4)).isEqualTo(0.5);
  }

  @Test
  void takesAPowerOnABoxCoxScaleOnly() {
    assertThatThrownBy(() -> new Plotting(Scale.LOG, 0.5))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> new Plotting(Scale.BOX_COX, null))
        .isInstanceOf(IllegalArgumentException.class);
    assertThatThrownBy(() -> Plotting.boxCox(Double.NaN))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
