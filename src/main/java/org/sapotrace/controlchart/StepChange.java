package org.sapotrace.controlchart;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * When the level of a process most likely changed, looked back on from a signal: the maximum
 * likelihood estimate of the time of a step in the mean of normal results whose level and spread
 * before it are those of the limits.
 *
 * <p>For a change behind the first t of T results, twice the log-likelihood is, but for a constant,
 * C_t = (T - t) (m_t - centre)²/sigma², with m_t the mean of the results behind them; for a step
 * known to go up or down, C_t is 0 where m_t lies on the other side of the centre. Where results
 * are means of n_i values, m_t is the mean of all these values, and their number takes the place of
 * T - t. The estimate is the t with the largest C_t, the earliest of several. Source: T. R. Samuel,
 * J. J. Pignatiello, J. A. Calvin, Identifying the time of a step change with X̄ control charts,
 * Quality Engineering 10 (1998) 521, doi:10.1080/08982119808919166.
 *
 * <p>The confidence set has every t whose log-likelihood lies at most 2 below the largest, C_t ≥ C
 * - 4: J. J. Pignatiello, T. R. Samuel, Estimation of the change point of a normal process mean in
 * SPC applications, Journal of Quality Technology 33 (2001) 82, doi:10.1080/00224065.2001.11980049.
 * Of a regular parameter it would be a 95 % interval. Behind a signal of individuals limits it
 * covers a change by one sigma 78 times in 100, by two 89 and by three 96 (simulated).
 *
 * @param after how many results lie before the change, from 0 to T - 1
 * @param statistic the largest C_t, at least 0
 * @param mean the mean of the results behind the change, in their unit
 * @param possible the confidence set of {@code after}, rising; never empty
 */
public record StepChange(int after, double statistic, double mean, List<Integer> possible) {

  private static final double DROP = 4;

  public StepChange {
    possible = List.copyOf(possible);
  }

  /** Estimates when the level of single results changed. */
  public static StepChange of(double[] values, ControlLimits limits, Side side) {
    int[] sizes = new int[values.length];
    Arrays.fill(sizes, 1);
    return of(values, sizes, limits, side);
  }

  /**
   * Estimates when the level changed.
   *
   * @param values at least 1 finite result in order of time, since the limits began to judge
   * @param sizes of how many values each is the mean
   * @param limits of single values
   * @param side the way the step went; {@link Side#NONE} for either
   * @throws IllegalArgumentException without results
   */
  public static StepChange of(double[] values, int[] sizes, ControlLimits limits, Side side) {
    int count = values.length;
    if (count == 0) {
      throw new IllegalArgumentException("A change of level is looked for among results.");
    }
    double[] c = new double[count];
    double sum = 0;
    double weight = 0;
    int after = count - 1;
    double[] mean = new double[count];
    for (int t = count - 1; t >= 0; t--) {
      sum += sizes[t] * limits.z(values[t]);
      weight += sizes[t];
      double z = sum / weight;
      c[t] = isOn(side, z) ? sum * z : 0;
      mean[t] = limits.centre() + z * limits.sigma();
      after = c[t] >= c[after] ? t : after;
    }
    List<Integer> possible = new ArrayList<>();
    for (int t = 0; t < count; t++) {
      if (c[t] >= c[after] - DROP) {
        possible.add(t);
      }
    }
    return new StepChange(after, c[after], mean[after], possible);
  }

  private static boolean isOn(Side side, double z) {
    return switch (side) {
      case HIGH -> z > 0;
      case LOW -> z < 0;
      case NONE -> true;
    };
  }
}
