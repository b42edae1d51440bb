package org.sapotrace.runlength;

/**
 * The mean number of steps that a Markov chain takes until it is absorbed.
 *
 * <p>By reduction of states, which adds, multiplies and divides but never subtracts: where states
 * are left rarely, solving (I - Q) f = 1 would lose as many digits as the answer has before its
 * point, and this loses none.
 *
 * <p>Source: W. K. Grassmann, M. I. Taksar, D. P. Heyman, Regenerative analysis and steady state
 * distributions for Markov chains, Operations Research 33 (1985) 1107, doi:10.1287/opre.33.5.1107.
 */
final class Absorption {

  private Absorption() {}

  /**
   * The mean number of steps from each state.
   *
   * @param moves moves[i][j] is the probability of moving from state i to j; overwritten. That of
   *     staying is not read, but is what is left of 1.
   * @param absorbed the probability of being absorbed from each state; overwritten
   */
  static double[] meanSteps(double[][] moves, double[] absorbed) {
    int states = absorbed.length;
    double[] steps = new double[states];
    double[] leaving = new double[states];
    for (int k = states - 1; k >= 0; k--) {
      steps[k] += 1;
      leaving[k] = absorbed[k] + sum(moves[k], k);
      for (int i = 0; i < k; i++) {
        // A visit of k from i is over when k is left for a state before it, or for good.
        double visits = moves[i][k] / leaving[k];
        absorbed[i] += visits * absorbed[k];
        steps[i] += visits * steps[k];
        for (int j = 0; j < k; j++) {
          moves[i][j] += visits * moves[k][j];
        }
      }
    }
    for (int k = 0; k < states; k++) {
      for (int j = 0; j < k; j++) {
        steps[k] += moves[k][j] * steps[j];
      }
      steps[k] /= leaving[k];
    }
    return steps;
  }

  private static double sum(double[] values, int count) {
    double sum = 0;
    for (int i = 0; i < count; i++) {
      sum += values[i];
    }
    return sum;
  }
}
