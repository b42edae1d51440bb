package org.sapotrace.runlength;

import java.util.Arrays;
import org.sapotrace.controlchart.Cusum;

/**
 * A two-sided CUSUM from the run lengths of its two sums. With one sum at c the mean run length is
 * L(c) = 1 + L(0) Φ(k - c - shift) + ∫ L(y) φ(y - c + k - shift) dy over y from 0 to h.
 *
 * <p>Sources: E. S. Page, Continuous inspection schemes, Biometrika 41 (1954) 100,
 * doi:10.1093/biomet/41.1-2.100, for the equation; J. M. Lucas, R. B. Crosier, Fast initial
 * response for CUSUM quality-control schemes, Technometrics 24 (1982) 199,
 * doi:10.1080/00401706.1982.10487759, for two sums.
 */
record CusumEquation(Cusum cusum) implements MeanRunLength {

  private static final double WIDEST = 3;

  @Override
  public double[] at(double... shifts) {
    return Arrays.stream(shifts).map(this::at).toArray();
  }

  /** L = (L+(s) L-(0) + L-(s) L+(0) - L+(0) L-(0)) / (L+(0) + L-(0)), with s the head start. */
  private double at(double shift) {
    OneSided up = OneSided.of(cusum, shift);
    OneSided down = OneSided.of(cusum, -shift);
    double sum = up.fromZero() + down.fromZero();
    // In shares of the sum, so that nothing overflows.
    double upShare = up.fromZero() / sum;
    double downShare = down.fromZero() / sum;
    double mean =
        up.fromHeadStart() * downShare + down.fromHeadStart() * upShare - up.fromZero() * downShare;
    // No run is shorter than one result, but rounding can make it so.
    return Math.max(1, mean);
  }

  /**
   * The mean run lengths of the upper sum alone.
   *
   * @param fromZero started at 0
   * @param fromHeadStart started at the head start
   */
  record OneSided(double fromZero, double fromHeadStart) {

    static OneSided of(Cusum cusum, double shift) {
      Pieces pieces = Pieces.of(WIDEST, 0, cusum.decision());
      double[] nodes = pieces.nodes();
      // State 0 is a sum of 0, the others are nodes.
      double[][] moves = new double[nodes.length + 1][nodes.length + 1];
      double[] signals = new double[nodes.length + 1];
      for (int i = 0; i <= nodes.length; i++) {
        Landing next = landing(cusum, i == 0 ? 0 : nodes[i - 1], shift);
        moves[i][0] = next.below();
        System.arraycopy(pieces.weights(next), 0, moves[i], 1, nodes.length);
        signals[i] = next.above();
      }
      double[] lengths = Absorption.meanSteps(moves, signals);
      double[] within = Arrays.copyOfRange(lengths, 1, lengths.length);
      Landing first = landing(cusum, cusum.headStart(), shift);
      return new OneSided(
          lengths[0], 1 + first.below() * lengths[0] + pieces.integral(first, within));
    }

    private static Landing landing(Cusum cusum, double sum, double shift) {
      return new Landing(sum - cusum.reference() + shift, 1, 0, cusum.decision());
    }
  }
}
