package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.List;

/**
 * Words beside poles that stand on one edge of the plot, in rows, so that no words touch others nor
 * a pole: of poles close together the left one is the higher.
 */
final class Flags {

  /**
   * What is to stand somewhere.
   *
   * @param x of its pole, px
   * @param forms its words, from the longest to the shortest
   */
  record Wish(double x, List<String> forms) {}

  /**
   * A pole with words.
   *
   * @param x of the pole, px
   * @param row to which it reaches, from 0
   * @param text the words; empty where there was no room
   * @param left where they begin, px
   */
  record Flag(double x, int row, String text, double left) {}

  /** Less than that says nothing, in sizes of the type. */
  private static final double LEAST = 7;

  private final double width;
  private final double size;

  /** Distance of words from their pole, and at least half of it from another, px. */
  private final double gap;

  /** The least x that is taken in each row by what lies to the right. */
  private final double[] taken;

  /** The least x that words to the left of their pole cover in each row. */
  private final double[] covered;

  private Flags(int rows, double width, double size, double gap) {
    this.width = width;
    this.size = size;
    this.gap = gap;
    taken = new double[rows];
    Arrays.fill(taken, width);
    covered = new double[rows];
    Arrays.fill(covered, Double.POSITIVE_INFINITY);
  }

  /**
   * Finds a place for all poles, and for their words as far as there is room.
   *
   * @param wishes in ascending order of x
   * @param rows at least 1
   * @param width up to which words may reach, px
   * @param size of the type, px
   * @param gap between a pole and its words, px
   */
  static List<Flag> place(List<Wish> wishes, int rows, double width, double size, double gap) {
    Flags flags = new Flags(rows, width, size, gap);
    List<Flag> placed = new ArrayList<>();
    for (int i = wishes.size() - 1; i >= 0; i--) {
      double before = i == 0 ? Double.NEGATIVE_INFINITY : wishes.get(i - 1).x();
      placed.add(flags.place(wishes.get(i), before));
    }
    Collections.reverse(placed);
    return placed;
  }

  /** How many rows they take. */
  static int rows(List<Flag> flags) {
    return flags.stream().mapToInt(flag -> flag.row() + 1).max().orElse(0);
  }

  private Flag place(Wish wish, double before) {
    double x = wish.x();
    for (String form : wish.forms()) {
      boolean shorter = !form.equals(wish.forms().get(0));
      double own = Typeface.width(form, size);
      if (shorter && room(freest(x), x) - own >= LEAST * size) {
        // The beginning of the longest says more.
        break;
      }
      for (int row = 0; row < taken.length && stands(x, row); row++) {
        if (x + gap + own <= taken[row]) {
          return take(new Flag(x, row, form, x + gap), x);
        }
        double left = x - gap - own;
        boolean atTheEdge = x + gap + own > width && x <= taken[row];
        // Poles further left are lower than the second row if need be, but not than the first.
        if (atTheEdge && left >= (row == 0 ? Math.max(0, before + gap) : 0)) {
          return take(new Flag(x, row, form, left), left);
        }
      }
    }
    return take(cut(wish), x);
  }

  /** Whether a pole that reaches to a row crosses no words. */
  private boolean stands(double x, int row) {
    return Arrays.stream(covered, 0, row + 1).allMatch(from -> x + gap / 2 <= from);
  }

  private double room(int row, double x) {
    return taken[row] - x - gap;
  }

  private int freest(double x) {
    int freest = 0;
    for (int row = 1; row < taken.length && stands(x, row); row++) {
      freest = taken[row] > taken[freest] ? row : freest;
    }
    return freest;
  }

  /** As much of the words as there is room for in the freest row. */
  private Flag cut(Wish wish) {
    double x = wish.x();
    int row = freest(x);
    return room(row, x) < LEAST * size
        ? new Flag(x, 0, "", x)
        : new Flag(x, row, Lines.shorten(wish.forms().get(0), size, room(row, x)), x + gap);
  }

  private Flag take(Flag flag, double left) {
    for (int row = 0; row <= flag.row(); row++) {
      taken[row] = Math.min(taken[row], flag.x() - gap / 2);
    }
    if (left < flag.x()) {
      taken[flag.row()] = Math.min(taken[flag.row()], left - gap / 2);
      covered[flag.row()] = Math.min(covered[flag.row()], left);
    }
    return flag;
  }
}
