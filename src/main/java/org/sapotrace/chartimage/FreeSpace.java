package org.sapotrace.chartimage;

import java.awt.geom.Rectangle2D;

/** What the plot already holds, on a coarse grid, so that a letter finds a place where it reads. */
final class FreeSpace {

  /** The cost of a cell under a letter. */
  static final int LINE = 1;

  /** A line that runs across the plot, which is worse to lie on than one that is crossed. */
  static final int LEVEL = 3;

  /** More than a letter can cover of all the rest, so that none lies on a mark. */
  static final int MARK = 100_000;

  private static final double CELL = 2;

  private final int columns;
  private final int rows;
  private final int[] cost;

  FreeSpace(double width, double height) {
    columns = (int) Math.ceil(width / CELL);
    rows = (int) Math.ceil(height / CELL);
    cost = new int[columns * rows];
  }

  void box(Rectangle2D box, int weight) {
    int left = Math.max(0, cell(box.getMinX()));
    int right = Math.min(columns - 1, cell(box.getMaxX()));
    for (int row = Math.max(0, cell(box.getMinY()));
        row <= Math.min(rows - 1, cell(box.getMaxY()));
        row++) {
      for (int column = left; column <= right; column++) {
        set(column, row, weight);
      }
    }
  }

  void line(double x1, double y1, double x2, double y2) {
    int steps = (int) Math.ceil(Math.max(Math.abs(x2 - x1), Math.abs(y2 - y1)) / CELL) + 1;
    for (int i = 0; i <= steps; i++) {
      int column = cell(x1 + (x2 - x1) * i / steps);
      int row = cell(y1 + (y2 - y1) * i / steps);
      if (column >= 0 && column < columns && row >= 0 && row < rows) {
        set(column, row, LINE);
      }
    }
  }

  /** A level line, with a little room above and below it. */
  void level(double from, double to, double y) {
    box(new Rectangle2D.Double(from, y - CELL, to - from, 2 * CELL), LEVEL);
  }

  /** What a letter would cover; more than any mark where it leaves the plot. */
  int cost(Rectangle2D box) {
    int bottom = cell(box.getMaxY());
    int right = cell(box.getMaxX());
    if (box.getMinX() < 0 || box.getMinY() < 0 || right >= columns || bottom >= rows) {
      return Integer.MAX_VALUE;
    }
    int sum = 0;
    for (int row = cell(box.getMinY()); row <= bottom; row++) {
      for (int column = cell(box.getMinX()); column <= right; column++) {
        sum += cost[row * columns + column];
      }
    }
    return sum;
  }

  private void set(int column, int row, int weight) {
    int at = row * columns + column;
    cost[at] = Math.max(cost[at], weight);
  }

  private static int cell(double position) {
    return (int) Math.floor(position / CELL);
  }
}
