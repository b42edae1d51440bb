package org.sapotrace.washmodel;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;

class StraysTest {

  /**
   * By hand: of 7 in a row that rise by ln 1.5 each, the distances from the median are 0, 1, 1, 2,
   * 2, 3, 3 such steps, MAD is 2, and 3 is less than 3.5 * 1.4826 * 2.
   */
  @Test
  void whatRisesSteadilyDoesNotStray() {
    assertThat(strays(IntStream.range(0, 20).mapToDouble(i -> 5 * Math.pow(1.5, i)).toArray()))
        .isEmpty();
  }

  @Test
  void oneByAFactorOfFiveStraysAndByLessDoesNot() {
    assertThat(strays(1200, 1200, 239, 1200)).containsExactly(2);
    assertThat(strays(1200, 1200, 241, 1200)).isEmpty();
    assertThat(strays(6010, 1200, 1200)).containsExactly(0);
    assertThat(strays(5990, 1200, 1200)).isEmpty();
  }

  /** ln distances 0, 1.39, 1.39, 2.77, 3.91: MAD 1.39, and 3.5 * 1.4826 * 1.39 = 7.2. */
  @Test
  void whereAllScatterWidelyNoneStrays() {
    assertThat(strays(1000, 250, 4000, 16_000, 20)).isEmpty();
  }

  @Test
  void ofTwoNobodyCanTellWhichOneStrays() {
    assertThat(strays(20, 1200)).isEmpty();
    assertThat(strays()).isEmpty();
  }

  @Test
  void whatStaysSoIsTakenAsSoonAsItIsTheMajority() {
    assertThat(strays(100, 100, 100, 100, 100, 1000)).containsExactly(5);
    assertThat(strays(100, 100, 100, 1000, 1000, 1000, 1000, 1000)).doesNotContain(6, 7);
  }

  /** Seeded feeds that scatter by 30 %, each a plant's half year. */
  @Test
  void feedsThatScatterByAThirdDoNotStray() {
    SplittableRandom random = new SplittableRandom(20_261_129);
    for (int plant = 0; plant < 200; plant++) {
      assertThat(
              strays(
                  random
                      .doubles(100)
                      .map(each -> 1200 * Math.exp(0.3 * random.nextGaussian()))
                      .toArray()))
          .isEmpty();
    }
  }

  private static List<Integer> strays(double... soap) {
    return Strays.among(Arrays.stream(soap).boxed().toList()).stream()
        .map(Strays.Stray::index)
        .toList();
  }
}
