package org.sapotrace.baseline;

import org.hipparchus.stat.ranking.NaturalRanking;

/**
 * Pettitt's test for one change of level somewhere inside a series, whatever its distribution.
 *
 * <p>With R_i the ranks of the results (mean ranks for ties), U_t = 2 Σ R_i - t (n + 1), summed
 * over i ≤ t; K = max |U_t|, and p ≈ 2 exp(-6 K²/(n³ + n²)). Source: A. N. Pettitt, A
 * non-parametric approach to the change-point problem, Applied Statistics 28 (1979) 126,
 * doi:10.2307/2346729.
 *
 * @param statistic K, at least 0
 * @param before how many results lie before the change: the first t with |U_t| = K, from 1 to n - 1
 * @param pValue how often a series without a change reaches K, approximately, from 0 to 1
 */
public record Pettitt(double statistic, int before, double pValue) {

  /**
   * Tests a series.
   *
   * @param values at least 2 finite results in order of time
   * @throws IllegalArgumentException for fewer
   */
  public static Pettitt of(double[] values) {
    if (values.length < 2) {
      throw new IllegalArgumentException("A change inside needs at least 2 results.");
    }
    double[] ranks = new NaturalRanking().rank(values);
    double n = values.length;
    double sum = 0;
    double largest = -1;
    int before = 1;
    for (int t = 1; t < n; t++) {
      sum += 2 * ranks[t - 1] - (n + 1);
      if (Math.abs(sum) > largest) {
        largest = Math.abs(sum);
        before = t;
      }
    }
    double p = 2 * Math.exp(-6 * largest * largest / (n * n * (n + 1)));
    return new Pettitt(largest, before, Math.min(1, p));
  }
}
