package org.sapotrace.runlength;

import java.util.Arrays;
import org.sapotrace.controlchart.Spread;

/**
 * Single results with an alarm of their moving ranges, and with or without control limits. With R
 * the upper limit of the moving range and φ the normal density, the mean run length after a result
 * y is L(y) = 1 + ∫ L(x) φ(x - shift) dx over all x within the limits and within R of y.
 *
 * <p>Source: S. V. Crowder, Computation of ARL for combined individual measurement and moving range
 * charts, Journal of Quality Technology 19 (1987) 98.
 *
 * @param limited whether results beyond 3 sigma signal as well
 * @param alarm the upper limit R in sigma, from 3 to 6
 */
record MovingRangeEquation(boolean limited, double alarm) implements MeanRunLength {

  private static final double LIMIT = 3;
  // Without limits: so far out that nothing lies beyond.
  private static final double NOWHERE = 9;
  private static final double WIDEST = 1.5;

  static MovingRangeEquation of(boolean limited) {
    return new MovingRangeEquation(limited, Spread.RANGE.limits(1, 2).upper());
  }

  @Override
  public double[] at(double... shifts) {
    return Arrays.stream(shifts).map(this::at).toArray();
  }

  private double at(double shift) {
    double bound = limited ? LIMIT : NOWHERE;
    // Moving ranges alone do not feel a shift.
    double mean = limited ? shift : 0;
    double kink = Math.abs(bound - alarm);
    Pieces pieces = Pieces.of(WIDEST, -bound, -kink, kink, bound);
    double[] nodes = pieces.nodes();
    double[][] moves = new double[nodes.length][];
    double[] signals = new double[nodes.length];
    for (int i = 0; i < nodes.length; i++) {
      Landing next =
          new Landing(
              mean, 1, Math.max(-bound, nodes[i] - alarm), Math.min(bound, nodes[i] + alarm));
      moves[i] = pieces.weights(next);
      signals[i] = next.below() + next.above();
    }
    double[] lengths = Absorption.meanSteps(moves, signals);
    // The first result has no moving range.
    return 1 + pieces.integral(new Landing(mean, 1, -bound, bound), lengths);
  }
}
