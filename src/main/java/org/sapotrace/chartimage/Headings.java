package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;

/**
 * The sentences above and below a plot, made to fit: smaller, on more lines, with the rules in
 * brief, and at the very last ended by an ellipsis.
 *
 * @param font size of the type in the plot, px
 * @param left of the text, px
 * @param width that a line may take, px
 */
record Headings(double font, double left, double width) {

  private static final double[] HEADLINE_SIZES = {1.55, 1.4, 1.25, 1.1};
  private static final double[] NAME_SHARES = {1, 0.6, 0.4, 0.25};
  private static final String BETWEEN = "  ·  ";
  private static final String APART = "     ";

  /**
   * What the words around a plot leave for it.
   *
   * @param row the baseline of the name of the vertical axis, px
   * @param beside where another text in that row may begin, px
   * @param foot where the explanations begin, px
   */
  record Between(double row, double beside, double foot) {}

  /** Writes everything above and below a plot. */
  Between around(Words words, List<String> explanations, int height, List<Label> labels) {
    double row = above(words, height, left, labels) + font * 1.95;
    labels.add(new Label(words.axis(), left, row, font, Look.MUTED));
    double foot = below(explanations, height, height - left, labels);
    return new Between(row, left + Typeface.width(words.axis(), font) + 1.5 * font, foot);
  }

  /** Writes headline and circumstances; returns the y at which they end. */
  private double above(Words words, int height, double top, List<Label> labels) {
    double y = headline(words.headline(), height, top, labels) + 0.35 * font;
    int most = height < 300 ? 2 : 3;
    List<String> texts = circumstances(words, most);
    for (String text : Lines.first(texts, most, font, width)) {
      y += font * Page.LINE;
      labels.add(new Label(text, left, y, font, Look.MUTED));
    }
    return y;
  }

  private double headline(String headline, int height, double top, List<Label> labels) {
    double size = font;
    List<String> lines = List.of();
    for (double share : HEADLINE_SIZES) {
      size = share * font;
      lines = Lines.wrap(headline, size, width);
      if (lines.size() <= (share > 1.3 ? 1 : 2)) {
        break;
      }
    }
    double y = top - size * 0.35;
    for (String line : Lines.first(lines, height < 300 ? 2 : 3, size, width)) {
      y += size * 1.2;
      labels.add(new Label(line, left, y, size, Look.INK));
    }
    return y;
  }

  /** In two lines with the rules in words, or else with the rules in brief and names cut short. */
  private List<String> circumstances(Words words, int most) {
    List<String> lines = circumstances(words.circumstances(false, name -> name));
    boolean fit = lines.stream().allMatch(line -> Typeface.width(line, font) <= width);
    if (fit && lines.size() <= 2) {
      return lines;
    }
    for (double share : NAME_SHARES) {
      lines =
          circumstances(
              words.circumstances(true, name -> Lines.shorten(name, font, share * width)));
      if (lines.size() <= most) {
        break;
      }
    }
    return lines;
  }

  private List<String> circumstances(List<String> pieces) {
    return Lines.flow(pieces, BETWEEN, font, width).stream()
        .map(line -> String.join(BETWEEN, line))
        .toList();
  }

  /** Writes explanations that end at a foot; returns the y at which they begin. */
  private double below(List<String> explanations, int height, double foot, List<Label> labels) {
    double size = 0.95 * font;
    List<List<String>> lines =
        Lines.flow(
            explanations.stream().map(piece -> Lines.shorten(piece, size, width)).toList(),
            APART,
            size,
            width);
    int most = Math.min(lines.size(), Math.max(2, (int) (height * 0.28 / (size * Page.LINE))));
    double top = foot - most * size * Page.LINE;
    for (int i = 0; i < most; i++) {
      double baseline = top + (i + 0.8) * size * Page.LINE;
      boolean cut = i == most - 1 && lines.size() > most;
      labels.addAll(explained(cut ? cut(lines.get(i)) : lines.get(i), baseline, size));
    }
    return top;
  }

  private static List<String> cut(List<String> pieces) {
    List<String> shown = new ArrayList<>(pieces.subList(0, Math.max(1, pieces.size() - 1)));
    shown.add("…");
    return shown;
  }

  /** One line of explanations, a rule's letter in the colour that it has in the plot. */
  private List<Label> explained(List<String> pieces, double baseline, double size) {
    List<Label> labels = new ArrayList<>();
    double x = left;
    for (String piece : pieces) {
      boolean rule = piece.startsWith("  ", 1);
      if (rule) {
        labels.add(new Label(piece.substring(0, 1), x, baseline, size, Look.SIGNAL));
      }
      double indent = rule ? Typeface.width(piece.substring(0, 3), size) : 0;
      String words = rule ? piece.substring(3) : piece;
      labels.add(new Label(words, x + indent, baseline, size, Look.MUTED));
      x += Typeface.width(piece + APART, size);
    }
    return labels;
  }
}
