package org.sapotrace.chartimage;

import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.geom.Line2D;
import java.util.ArrayList;
import java.util.List;

/**
 * Sets a table: cells wrap within their columns, and a row that is very high goes on overleaf.
 *
 * @param width of the table, pt
 */
record TableSetting(Block.Table table, double width) {

  private static final double SIZE = 8;
  private static final double LINE = 1.3 * SIZE;
  private static final double GUTTER = 8;

  /** Between a rule and the text under it or above it, pt. */
  private static final double AIR = 3;

  /** A row of more lines may be broken. */
  private static final int HIGH = 12;

  List<Strip> strips() {
    Strip titles = titles();
    List<Strip> strips = new ArrayList<>(List.of(titles));
    for (List<String> row : table.rows()) {
      strips.addAll(row(row, titles));
    }
    return strips;
  }

  private Strip titles() {
    List<List<String>> cells =
        wrapped(table.columns().stream().map(Block.Table.Column::title).toList());
    int lines = lines(cells);
    double height = lines * LINE + AIR;
    return new Strip(
        height,
        true,
        null,
        (g, x, y) -> {
          draw(g, cells, 0, lines, x, y, Look.MUTED);
          rule(g, x, y + height - 0.5, Look.MUTED);
        });
  }

  private List<Strip> row(List<String> row, Strip titles) {
    List<List<String>> cells = wrapped(row);
    int lines = lines(cells);
    List<Strip> strips = new ArrayList<>();
    for (int from = 0; from < lines; from += HIGH) {
      int first = from;
      int next = Math.min(lines, from + HIGH);
      double above = from == 0 ? AIR : 0;
      double below = next == lines ? AIR : 0;
      double height = above + (next - from) * LINE + below;
      strips.add(
          new Strip(
              height,
              false,
              titles,
              (g, x, y) -> {
                draw(g, cells, first, next, x, y + above, Look.INK);
                if (below > 0) {
                  rule(g, x, y + height - 0.5, Look.GRID);
                }
              }));
    }
    return strips;
  }

  private List<List<String>> wrapped(List<String> row) {
    List<List<String>> cells = new ArrayList<>();
    for (int i = 0; i < row.size(); i++) {
      cells.add(Typesetting.wrap(row.get(i), SIZE, columnWidth(i) - GUTTER));
    }
    return cells;
  }

  private static int lines(List<List<String>> cells) {
    return cells.stream().mapToInt(List::size).max().orElse(1);
  }

  private double columnWidth(int column) {
    double all = table.columns().stream().mapToDouble(Block.Table.Column::share).sum();
    return width * table.columns().get(column).share() / all;
  }

  private void draw(
      Graphics2D g,
      List<List<String>> cells,
      int from,
      int to,
      double left,
      double top,
      Color colour) {
    double x = left;
    for (int i = 0; i < cells.size(); i++) {
      List<String> lines = cells.get(i);
      for (int line = from; line < Math.min(to, lines.size()); line++) {
        String text = lines.get(line);
        double slack = columnWidth(i) - GUTTER - Typeface.width(text, SIZE);
        double indent = table.columns().get(i).isNumber() ? slack : 0;
        double baseline = top + (line - from) * LINE + 0.95 * SIZE;
        new Label(text, x + indent, baseline, SIZE, colour).draw(g);
      }
      x += columnWidth(i);
    }
  }

  private void rule(Graphics2D g, double x, double y, Color colour) {
    g.setColor(colour);
    g.setStroke(Look.solid(0.6));
    g.draw(new Line2D.Double(x, y, x + width, y));
  }
}
