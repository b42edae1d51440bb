package org.sapotrace.chartimage;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Writes the letters of the rules beside the results at which they signal, where room is. */
final class SignalLetters {

  /** Which way a letter may lie from its mark: right, up positive; the first that is free wins. */
  private static final int[][] DIRECTIONS = {
    {0, 1}, {1, 1}, {-1, 1}, {1, 0}, {-1, 0}, {1, -1}, {-1, -1}, {0, -1}
  };

  /** Cells of line that a letter rather touches than stand farther from its mark. */
  private static final int FARTHER = 8;

  private final FreeSpace space;
  private final Page page;

  /**
   * A result with a signal.
   *
   * @param letters of its rules
   * @param mark its box in px from the top left of the plot
   * @param above whether it lies above the centre, so that its letters had better stand above it
   */
  record Signal(String letters, Rectangle2D mark, boolean above) {}

  SignalLetters(FreeSpace space, Page page) {
    this.space = space;
    this.page = page;
  }

  /** The letters that find room, in px of the picture. */
  List<Label> place(List<Signal> signals) {
    List<Label> labels = new ArrayList<>();
    for (Signal signal : signals) {
      Label label = place(signal);
      if (label != null) {
        labels.add(label);
      }
    }
    return labels;
  }

  private @Nullable Label place(Signal signal) {
    Label best = null;
    int least = FreeSpace.MARK;
    for (double distance : new double[] {0.2, 0.7}) {
      for (int[] direction : DIRECTIONS) {
        Label label = beside(signal, direction, distance * page.font());
        int cost = space.cost(inPlot(label));
        if (cost < least - (distance > 0.5 ? FARTHER : 0)) {
          best = label;
          least = cost;
        }
      }
    }
    if (best != null) {
      space.box(inPlot(best), FreeSpace.MARK);
    }
    return best;
  }

  private Label beside(Signal signal, int[] direction, double distance) {
    double size = page.font();
    double width = Typeface.width(signal.letters, size);
    int up = signal.above ? direction[1] : -direction[1];
    double middleX =
        signal.mark.getCenterX()
            + direction[0] * (signal.mark.getWidth() / 2 + distance + width / 2);
    double reach = signal.mark.getHeight() / 2 + distance + size * 0.4;
    double middleY = signal.mark.getCenterY() - up * (direction[0] == 0 ? reach : reach * 0.75);
    return Label.centredOn(
        signal.letters,
        page.plot().x + middleX - width / 2,
        page.plot().y + middleY,
        size,
        Look.SIGNAL);
  }

  private Rectangle2D inPlot(Label label) {
    double capital = 0.74 * label.size();
    return new Rectangle2D.Double(
        label.x() - page.plot().x,
        label.baseline() - capital - page.plot().y,
        label.width(),
        capital);
  }
}
