package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.List;

/** Places labels beside their lines, and apart from each other where the lines are close. */
final class EdgeLabels {

  private EdgeLabels() {}

  /**
   * The middles of labels that lie as near as possible to their targets, by least squares, without
   * touching: pooling of adjacent violators on target minus rank times height.
   *
   * @param targets wished middles in ascending order, px
   * @param height of a label with the air around it, px
   * @param top least middle, px
   * @param bottom greatest middle, px; labels that do not fit between overrun it
   */
  static double[] spread(double[] targets, double height, double top, double bottom) {
    List<double[]> blocks = new ArrayList<>();
    for (int i = 0; i < targets.length; i++) {
      blocks.add(new double[] {targets[i] - i * height, 1});
      while (blocks.size() > 1 && last(blocks, 1)[0] >= last(blocks, 0)[0]) {
        double[] next = blocks.remove(blocks.size() - 1);
        double[] before = last(blocks, 0);
        double count = before[1] + next[1];
        before[0] = (before[0] * before[1] + next[0] * next[1]) / count;
        before[1] = count;
      }
    }
    double[] middles = new double[targets.length];
    double most = bottom - (targets.length - 1) * height;
    int i = 0;
    for (double[] block : blocks) {
      double start = Math.max(top, Math.min(most, block[0]));
      for (int k = 0; k < block[1]; k++, i++) {
        middles[i] = start + i * height;
      }
    }
    return middles;
  }

  private static double[] last(List<double[]> blocks, int before) {
    return blocks.get(blocks.size() - 1 - before);
  }
}
