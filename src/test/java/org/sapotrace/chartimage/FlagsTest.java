package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.sapotrace.chartimage.Flags.Flag;
import org.sapotrace.chartimage.Flags.Wish;

class FlagsTest {

  private static final double WIDTH = 400;
  private static final double SIZE = 10;
  private static final double GAP = 8;

  private static List<Flag> place(int rows, Wish... wishes) {
    return Flags.place(List.of(wishes), rows, WIDTH, SIZE, GAP);
  }

  private static Wish wish(double x, String... forms) {
    return new Wish(x, List.of(forms));
  }

  @Test
  void writeToTheRightOfTheirPoleInTheFirstRow() {
    assertThat(place(2, wish(50, "tower repacked"), wish(200, "lot opened")))
        .containsExactly(
            new Flag(50, 0, "tower repacked", 58), new Flag(200, 0, "lot opened", 208));
  }

  @Test
  void riseOverTheOneBehindWhereTheWordsWouldTouchIt() {
    assertThat(place(2, wish(50, "tower repacked"), wish(70, "lot opened")))
        .extracting(Flag::row)
        .containsExactly(1, 0);
  }

  @Test
  void writeToTheLeftAtTheEdge() {
    Flag flag = place(1, wish(390, "tower repacked")).get(0);
    assertThat(flag.left()).isEqualTo(390 - GAP - Typeface.width("tower repacked", SIZE));
    List<Flag> two = place(2, wish(385, "lot opened"), wish(390, "tower repacked"));
    assertThat(two).extracting(Flag::row).containsExactly(0, 1);
  }

  @Test
  void useShorterWordsWhereTheLongOnesDoNotFit() {
    assertThat(place(1, wish(50, "media change: tower repacked", "repacked"), wish(130, "b")))
        .extracting(Flag::text)
        .containsExactly("repacked", "b");
  }

  @Test
  void beginTheLongWordsWhereThatSaysMoreThanTheShort() {
    assertThat(
            place(
                1,
                wish(50, "change about 5 Mar: sampled before it settled", "5 Mar"),
                wish(250, "b")))
        .extracting(Flag::text)
        .satisfies(
            texts -> assertThat(texts.get(0)).startsWith("change about 5 Mar: sa").endsWith("…"));
  }

  @Test
  void haveNoWordsWhereThereIsNoRoom() {
    assertThat(place(1, wish(50, "tower repacked"), wish(60, "lot opened")))
        .extracting(Flag::text)
        .containsExactly("", "lot opened");
  }

  @Test
  void neverLetWordsTouchWordsOrPoles() {
    SplittableRandom random = new SplittableRandom(21);
    for (int trial = 0; trial < 500; trial++) {
      List<Wish> wishes = new ArrayList<>();
      double x = 0;
      for (int i = 0; i < 8 && x < WIDTH; i++) {
        wishes.add(wish(x, "w".repeat(random.nextInt(1, 20)), "ww"));
        x += random.nextDouble() * 120;
      }
      assertApart(Flags.place(wishes, 3, WIDTH, SIZE, GAP));
    }
  }

  private static void assertApart(List<Flag> flags) {
    for (Flag words : flags) {
      double right = words.left() + Typeface.width(words.text(), SIZE);
      for (Flag other : words.text().isEmpty() ? List.<Flag>of() : flags) {
        boolean pole = other.row() >= words.row() && other != words;
        assertThat(pole && other.x() > words.left() && other.x() < right)
            .as("pole of %s through %s", other, words)
            .isFalse();
        boolean sameRow = other != words && other.row() == words.row() && !other.text().isEmpty();
        assertThat(sameRow && other.left() < right && words.left() < other.left())
            .as("%s on %s", other, words)
            .isFalse();
      }
      assertThat(right).isLessThanOrEqualTo(WIDTH + 1e-9);
      assertThat(words.left()).isNotNegative();
    }
  }
}
