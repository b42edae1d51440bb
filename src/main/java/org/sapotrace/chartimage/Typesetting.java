package org.sapotrace.chartimage;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.AffineTransform;
import java.util.ArrayList;
import java.util.List;

/**
 * Sets the blocks of a paper in strips.
 *
 * @param width of a line, pt
 */
record Typesetting(double width) {

  private static final double BODY = 9.5;
  private static final double LEADING = 1.4;
  private static final double[] HEADING_SIZES = {15, 11};
  private static final double INDENT = 11;

  // A picture is painted at this size, px, and put down smaller: its type is then that of the text.
  private static final int PICTURE_WIDTH = 840;
  private static final int PICTURE_HEIGHT = 430;

  /** The lines of a text, without what no paper can hold. */
  static List<String> wrap(String text, double size, double width) {
    return Lines.wrap(Typeface.clean(text), size, width);
  }

  List<Strip> of(List<Block> blocks) {
    return blocks.stream().flatMap(block -> of(block).stream()).toList();
  }

  // A switch over types is not in Java 17.
  private List<Strip> of(Block block) {
    if (block instanceof Block.Heading heading) {
      return heading(heading);
    }
    if (block instanceof Block.NewPage) {
      return List.of(Strip.PAGE_END);
    }
    if (block instanceof Block.Table table) {
      return below(9, new TableSetting(table, width).strips());
    }
    if (block instanceof Block.Item item) {
      return below(4, item(item.text()));
    }
    if (block instanceof Block.Picture picture) {
      return below(9, picture(new ChartPainter(picture.chart(), Axis.TIME)));
    }
    // What is left is a paragraph.
    return below(6, lines(String.join(" ", block.told().toList()), BODY, 0, false));
  }

  private static List<Strip> below(double space, List<Strip> strips) {
    List<Strip> all = new ArrayList<>(List.of(Strip.space(space)));
    all.addAll(strips);
    return all;
  }

  private List<Strip> heading(Block.Heading heading) {
    double size = HEADING_SIZES[heading.level() - 1];
    return below(1.5 * size, lines(heading.text(), size, 0, true));
  }

  private List<Strip> item(String text) {
    List<Strip> strips = lines(text, BODY, INDENT, false);
    Strip first = strips.get(0);
    Strip.Ink words = (g, x, y) -> text(g, "–", x, y, BODY, Look.MUTED);
    Strip marked =
        new Strip(
            first.height(),
            first.staysWithNext(),
            null,
            (g, x, y) -> {
              words.draw(g, x, y);
              if (first.ink() != null) {
                first.ink().draw(g, x, y);
              }
            });
    List<Strip> all = new ArrayList<>(List.of(marked));
    all.addAll(strips.subList(1, strips.size()));
    return all;
  }

  /** Lines of text, of which no single one stands alone on a page. */
  private List<Strip> lines(String words, double size, double indent, boolean staysWithNext) {
    List<String> lines = wrap(words, size, width - indent);
    List<Strip> strips = new ArrayList<>();
    for (int i = 0; i < lines.size(); i++) {
      String line = lines.get(i);
      boolean isEdge = lines.size() > 1 && (i == 0 || i == lines.size() - 2);
      strips.add(
          new Strip(
              size * LEADING,
              isEdge || staysWithNext,
              null,
              (g, x, y) -> text(g, line, x + indent, y, size, Look.INK)));
    }
    return strips;
  }

  private static void text(
      Graphics2D g, String words, double x, double y, double size, Color colour) {
    new Label(words, x, y + size, size, colour).draw(g);
  }

  private List<Strip> picture(Painting painting) {
    double scale = width / PICTURE_WIDTH;
    return List.of(
        new Strip(
            PICTURE_HEIGHT * scale,
            false,
            null,
            (g, x, y) -> {
              AffineTransform before = g.getTransform();
              g.translate(x, y);
              g.scale(scale, scale);
              painting.paint(g, PICTURE_WIDTH, PICTURE_HEIGHT);
              g.setTransform(before);
            }));
  }
}
