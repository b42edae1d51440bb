package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

class EdgeLabelsTest {

  @Test
  void leavesLabelsThatDoNotTouchWhereTheyAre() {
    assertThat(EdgeLabels.spread(new double[] {10, 40, 90}, 12, 0, 100))
        .containsExactly(10, 40, 90);
  }

  @Test
  void movesTwoThatWouldTouchApartEquallyFar() {
    assertThat(EdgeLabels.spread(new double[] {50, 54}, 12, 0, 100)).containsExactly(46, 58);
  }

  @Test
  void carriesAlongALabelThatAMovedOneWouldTouch() {
    // By hand: 50, 50, 55 less 0, 12, 24 average 39 2/3.
    assertThat(EdgeLabels.spread(new double[] {50, 50, 55}, 12, 0, 100))
        .containsExactly(new double[] {39.6667, 51.6667, 63.6667}, within(1e-4));
  }

  @Test
  void keepsAllWithinThePlot() {
    assertThat(EdgeLabels.spread(new double[] {1, 2}, 12, 5, 100)).containsExactly(5, 17);
    assertThat(EdgeLabels.spread(new double[] {98, 99}, 12, 5, 100)).containsExactly(88, 100);
  }

  @Test
  void hasNothingToPlaceWithoutLabels() {
    assertThat(EdgeLabels.spread(new double[0], 12, 5, 100)).isEmpty();
  }

  @Test
  void neverLetsTwoTouchAndKeepsTheirOrder() {
    SplittableRandom random = new SplittableRandom(41);
    for (int round = 0; round < 500; round++) {
      double[] targets = random.doubles(5, 0, 100).sorted().toArray();
      double[] middles = EdgeLabels.spread(targets, 12, 0, 100);
      for (int i = 1; i < middles.length; i++) {
        assertThat(middles[i] - middles[i - 1]).isGreaterThan(12 - 1e-9);
      }
      assertThat(Arrays.stream(middles).min().orElseThrow()).isGreaterThan(-1e-9);
      assertThat(Arrays.stream(middles).max().orElseThrow()).isLessThan(100 + 1e-9);
    }
  }
}
