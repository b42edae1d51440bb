package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class ThinningTest {

  @Test
  void keepsEverythingWhereEachColumnHoldsOneResult() {
    double[] xs = {0.5, 1.5, 2.5};
    assertThat(Thinning.indices(xs, new double[] {3, 1, 2}, i -> false)).containsExactly(0, 1, 2);
  }

  @Test
  void keepsTheLowestAndTheHighestOfAColumn() {
    double[] xs = {0, 1.1, 1.2, 1.3, 1.4, 1.5, 2};
    double[] ys = {5, 5, 9, 4, 1, 6, 5};
    assertThat(Thinning.indices(xs, ys, i -> false)).containsExactly(0, 2, 4, 6);
  }

  @Test
  void keepsABreakInTheLine() {
    double[] xs = {0, 0.1, 0.2, 0.3, 0.4};
    double[] ys = {Double.NaN, 2, Double.NaN, 3, 2.5};
    assertThat(Thinning.indices(xs, ys, i -> false)).containsExactly(0, 1, 2, 3, 4);
  }

  @Test
  void keepsEveryResultThatSignalsAndTheOutlineOfAllOthers() {
    SplittableRandom random = new SplittableRandom(42);
    int n = 100_000;
    double[] xs = IntStream.range(0, n).mapToDouble(i -> i * 800.0 / n).toArray();
    double[] ys = random.doubles(n, 0, 400).toArray();
    int[] kept = Thinning.indices(xs, ys, i -> i % 97 == 13);
    assertThat(IntStream.of(kept).filter(i -> i % 97 == 13).count())
        .isEqualTo(IntStream.range(0, n).filter(i -> i % 97 == 13).count());
    assertThat(kept).isSorted().hasSizeLessThan(800 * 2 + n / 97 + 3);
    for (int column = 0; column < 800; column++) {
      int at = column;
      double[] all =
          IntStream.range(0, n).filter(i -> (int) xs[i] == at).mapToDouble(i -> ys[i]).toArray();
      double[] left =
          Arrays.stream(kept).filter(i -> (int) xs[i] == at).mapToDouble(i -> ys[i]).toArray();
      assertThat(Arrays.stream(left).min()).isEqualTo(Arrays.stream(all).min());
      assertThat(Arrays.stream(left).max()).isEqualTo(Arrays.stream(all).max());
    }
  }
}
