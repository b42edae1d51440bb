package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;

/** Breaks text into lines of a given width. */
final class Lines {

  private static final String ELLIPSIS = "…";

  private Lines() {}

  /** Words in as few lines as they need; a word wider than a line is broken. */
  static List<String> wrap(String text, double size, double width) {
    List<String> words = new ArrayList<>();
    for (String word : text.split(" +", -1)) {
      breakUp(word, size, width, words);
    }
    return flow(words, " ", size, width).stream().map(line -> String.join(" ", line)).toList();
  }

  /** Pieces that stay whole, in as few lines as they need. */
  static List<List<String>> flow(List<String> pieces, String separator, double size, double width) {
    List<List<String>> lines = new ArrayList<>();
    double used = Double.POSITIVE_INFINITY;
    double between = Typeface.width(separator, size);
    for (String piece : pieces) {
      double own = Typeface.width(piece, size);
      if (used + between + own > width) {
        lines.add(new ArrayList<>());
        used = -between;
      }
      lines.get(lines.size() - 1).add(piece);
      used += between + own;
    }
    return lines;
  }

  /** The first lines; where more follow, the last of them says so by an ellipsis. */
  static List<String> first(List<String> lines, int most, double size, double width) {
    if (lines.size() <= most) {
      return lines;
    }
    List<String> first = new ArrayList<>(lines.subList(0, most));
    first.set(most - 1, shorten(first.get(most - 1) + " " + ELLIPSIS, size, width));
    return first;
  }

  /** The text, or as much of its beginning as fits, with an ellipsis. */
  static String shorten(String text, double size, double width) {
    if (Typeface.width(text, size) <= width) {
      return text;
    }
    int fitting = 0;
    int beyond = text.length();
    while (beyond - fitting > 1) {
      int middle = (fitting + beyond) / 2;
      boolean fits = Typeface.width(start(text, middle) + ELLIPSIS, size) <= width;
      fitting = fits ? middle : fitting;
      beyond = fits ? beyond : middle;
    }
    return start(text, fitting).stripTrailing() + ELLIPSIS;
  }

  private static void breakUp(String word, double size, double width, List<String> words) {
    String rest = word;
    while (Typeface.width(rest, size) > width) {
      int fitting = shorten(rest, size, width).length() - 1;
      int end = Math.max(rest.offsetByCodePoints(0, 1), fitting);
      words.add(rest.substring(0, end));
      rest = rest.substring(end);
    }
    words.add(rest);
  }

  /** The first chars of a text, never half a surrogate pair. */
  private static String start(String text, int length) {
    boolean split = length > 0 && Character.isHighSurrogate(text.charAt(length - 1));
    return text.substring(0, split ? length - 1 : length);
  }
}
