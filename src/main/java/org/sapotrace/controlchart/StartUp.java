package org.sapotrace.controlchart;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * A first watch before there are limits: Quesenberry's Q statistic of single results whose mean and
 * standard deviation are unknown. Each result is judged by those before it alone; while the process
 * is in control and normal, the statistics are independent and follow the unit normal distribution,
 * so that the limits are ±3 from the third result on.
 *
 * <p>Q_r = Φ⁻¹(G_(r-2)(√((r-1)/r) (x_r - x̄_(r-1)) / s_(r-1))), r = 3, 4, …, with x̄ and s the mean
 * and the standard deviation of the results before it and G_ν Student's distribution function.
 * Source: C. P. Quesenberry, SPC Q charts for start-up processes and short or long runs, Journal of
 * Quality Technology 23 (1991) 213, doi:10.1080/00224065.1991.11979327.
 *
 * @param count how many results so far, at least 0
 * @param mean of them; 0 before the first
 * @param squares the sum of their squared deviations from it, at least 0
 */
public record StartUp(int count, double mean, double squares) {

  /** Before the first result. */
  public static final StartUp START = new StartUp(0, 0, 0);

  private static final NormalDistribution NORMAL = new NormalDistribution();

  /** The distance from 0 that no result in control is expected to be found at: beyond ±Q. */
  private static final double FARTHEST = 8;

  /**
   * Checks a state.
   *
   * @throws IllegalArgumentException if numbers are out of range
   */
  public StartUp {
    if (!(count >= 0 && Double.isFinite(mean) && squares >= 0 && Double.isFinite(squares))) {
      throw new IllegalArgumentException(
          "These numbers are not the state of a start-up watch. Begin again at the first result.");
    }
  }

  /**
   * The statistic of the next result; NaN where there is none: for the first two results, and while
   * all before it are equal. Where it lies beyond ±8, it is ±8.
   *
   * @param x finite
   */
  public double q(double x) {
    if (count < 2 || squares == 0) {
      return Double.NaN;
    }
    double deviation = Math.sqrt(squares / (count - 1));
    double t = Math.sqrt(count / (count + 1.0)) * (x - mean) / deviation;
    // In the lower tail probabilities keep their digits.
    double p = new TDistribution(count - 1.0).cumulativeProbability(-Math.abs(t));
    double q = NORMAL.inverseCumulativeProbability(p);
    return Math.copySign(Math.min(-q, FARTHEST), t);
  }

  /**
   * The state after one more result (the recurrence of B. P. Welford, Technometrics 4 (1962) 419).
   *
   * @param x finite
   * @throws IllegalArgumentException if it is not
   */
  public StartUp next(double x) {
    double step = x - mean;
    double moved = mean + step / (count + 1);
    return new StartUp(count + 1, moved, squares + step * (x - moved));
  }
}
