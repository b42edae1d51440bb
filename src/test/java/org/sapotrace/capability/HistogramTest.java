package org.sapotrace.capability;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatIllegalArgumentException;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class HistogramTest {

  // By hand: quartiles 2.25 and 6.75 (position p (n + 1)), 2 x 4.5 / 2 = 4.5, by ratio nearest to
  // 5.
  @Test
  void hasTheWidthOfFreedmanAndDiaconisRounded() {
    Histogram histogram = Histogram.of(new double[] {1, 2, 3, 4, 5, 6, 7, 8});
    assertThat(histogram.width()).isEqualTo(5);
    assertThat(histogram.start()).isEqualTo(0);
    assertThat(histogram.counts()).containsExactly(4, 4);
  }

  @Test
  void countsAResultOnABorderInTheClassThatBeginsThere() {
    // By hand: quartiles -8.5 and 8.5, 2 x 17 / 8^(1/3) = 17, by ratio nearest to 20.
    Histogram histogram = Histogram.of(new double[] {-20, -10, -4, 0, 0, 4, 10, 20});
    assertThat(histogram.width()).isEqualTo(20);
    assertThat(histogram.start()).isEqualTo(-20);
    assertThat(histogram.counts()).containsExactly(3, 4, 1);
  }

  @ParameterizedTest
  @ValueSource(doubles = {1e-9, 0.03, 1, 7, 1e12})
  void countsEveryResultOnceWhateverTheUnit(double unit) {
    SplittableRandom random = new SplittableRandom(3);
    double[] values =
        IntStream.range(0, 500).mapToDouble(i -> unit * (8 + random.nextGaussian())).toArray();
    Histogram histogram = Histogram.of(values);
    assertThat(histogram.counts().stream().mapToInt(Integer::intValue).sum()).isEqualTo(500);
    for (int i = 0; i < histogram.counts().size(); i++) {
      double from = histogram.start() + i * histogram.width();
      long inside =
          IntStream.range(0, 500)
              .filter(k -> values[k] >= from && values[k] < from + histogram.width())
              .count();
      assertThat((double) histogram.counts().get(i)).isCloseTo(inside, within(0.0));
    }
  }

  @Test
  void hasSixtyClassesAndOneAtMostHoweverFarOneResultLies() {
    double[] values = new double[40];
    values[7] = 1e6;
    assertThat(Histogram.of(values).counts()).hasSizeLessThanOrEqualTo(61).startsWith(39);
  }

  @Test
  void refusesWhatHasNoWidth() {
    assertThatIllegalArgumentException()
        .isThrownBy(() -> Histogram.of(new double[] {3, 3, 3}))
        .withMessageContaining("a width above 0");
    assertThatIllegalArgumentException().isThrownBy(() -> new Histogram(0, Double.NaN, List.of(1)));
  }
}
