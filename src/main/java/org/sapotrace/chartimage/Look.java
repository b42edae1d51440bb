package org.sapotrace.chartimage;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;

/**
 * Ink and pens on paper: the colours of every picture, and lines that differ by shape as well, so
 * that a grey print says the same.
 */
final class Look {

  static final Color PAPER = new Color(0xFBFAF7);
  static final Color INK = new Color(0x1F2933);
  static final Color MUTED = new Color(0x5F6C7B);
  static final Color GRID = new Color(0xE3E0D8);
  static final Color RESULT = new Color(0x1B5E7B);
  static final Color LIMIT = new Color(0x8A4B08);
  static final Color SPECIFICATION = new Color(0x7A1F3D);

  /** A moving average or a cumulative sum. */
  static final Color DRIFT = new Color(0x6D4FA3);

  static final Color SIGNAL = new Color(0xC2410C);

  /** The colour of a signal, thinned with paper. */
  static final Color FAINT_SIGNAL = new Color(0xE9BBA2);

  /** The colour of a result, thinned with paper. */
  static final Color UNCERTAINTY = new Color(0xB3CAD3);

  /** A bar of a histogram. */
  static final Color BAR = new Color(0xC9D8DE);

  /** Length of a dash of a control limit, and of the gap behind it. */
  static final double DASH = 9;

  static final double GAP = 5;

  private Look() {}

  /** Lays paper of that size, ready for smooth lines and letters. */
  static void paper(Graphics2D g, int width, int height) {
    g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
    g.setRenderingHint(
        RenderingHints.KEY_FRACTIONALMETRICS, RenderingHints.VALUE_FRACTIONALMETRICS_ON);
    g.setColor(PAPER);
    g.fillRect(0, 0, width, height);
  }

  /** A solid line with round ends, so that segments drawn one by one join. */
  static BasicStroke solid(double width) {
    return new BasicStroke((float) width, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
  }

  /** Long dashes: a control limit. */
  static BasicStroke dashed(double unit) {
    return patterned(BasicStroke.CAP_BUTT, 1.4 * unit, DASH * unit, GAP * unit);
  }

  /** One dash of a control limit. */
  static BasicStroke dash(double unit) {
    return new BasicStroke((float) (1.4 * unit), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND);
  }

  /** Heavy round dots: a specification limit. */
  static BasicStroke dotted(double unit) {
    return patterned(BasicStroke.CAP_ROUND, 2.4 * unit, 0.01, 5 * unit);
  }

  private static BasicStroke patterned(int cap, double width, double ink, double gap) {
    float[] pattern = {(float) ink, (float) gap};
    return new BasicStroke((float) width, cap, BasicStroke.JOIN_ROUND, 10, pattern, 0);
  }
}
