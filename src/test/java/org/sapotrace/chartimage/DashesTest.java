package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.api.Test;

class DashesTest {

  private static double[][] dashes(double[]... corners) {
    Segments segments = new Segments();
    Dashes line = new Dashes(segments, 3, 2);
    for (double[] corner : corners) {
      line.to(corner[0], corner[1]);
    }
    return new double[][] {segments.xs(), segments.ys()};
  }

  // By hand: 3 px of ink, 2 px of gap, along 10 px.
  @Test
  void alternateWithGaps() {
    double[][] drawn = dashes(new double[] {0, 7}, new double[] {10, 7});
    assertThat(drawn[0]).containsExactly(new double[] {0, 3, 3, 5, 8, 8}, within(1e-9));
  }

  // By hand: 2 px to the right, then 1 px down complete the dash; the next begins 2 px farther
  // down.
  @Test
  void goOnAroundACorner() {
    double[][] drawn = dashes(new double[] {0, 0}, new double[] {2, 0}, new double[] {2, 6});
    assertThat(drawn[0]).containsExactly(new double[] {0, 2, 2, 2, 2, 2, 2, 2, 2}, within(1e-9));
    assertThat(drawn[1][4]).isEqualTo(1, within(1e-9));
    assertThat(drawn[1][6]).isEqualTo(3, within(1e-9));
    assertThat(drawn[1][7]).isEqualTo(6, within(1e-9));
  }

  @Test
  void areAboutAsManyAsTheLineIsLong() {
    double[][] corners = new double[1001][];
    for (int i = 0; i <= 1000; i++) {
      corners[i] = new double[] {0.7 * i, 0};
    }
    double[] xs = dashes(corners)[0];
    double ink = 0;
    for (int i = 0; i < xs.length; i += 3) {
      ink += xs[i + 1] - xs[i];
    }
    assertThat(ink).isEqualTo(0.6 * 700, within(3.0));
  }

  @Test
  void drawNothingOfALineWithoutLength() {
    assertThat(dashes(new double[] {4, 4}, new double[] {4, 4})[0]).isEmpty();
  }
}
