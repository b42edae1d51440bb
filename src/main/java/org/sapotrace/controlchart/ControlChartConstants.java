package org.sapotrace.controlchart;

import org.hipparchus.special.Beta;
import org.sapotrace.measure.NormalRange;

/**
 * What the range and the standard deviation of a few normal results are on average, for results
 * with standard deviation 1. They turn an observed range or standard deviation into an estimate of
 * sigma.
 *
 * <p>Computed from the distributions themselves, because printed tables are rounded and carry
 * errors. The relative error is below 1e-12. Definitions: H. L. Harter, Tables of Range and
 * Studentized Range, Annals of Mathematical Statistics 31 (1960) 1122, doi:10.1214/aoms/1177705684;
 * NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.
 */
public final class ControlChartConstants {

  /** The largest number of results, inclusive, for which the range is offered. */
  public static final int MAX_RANGE_SIZE = NormalRange.MAX_SIZE;

  private ControlChartConstants() {}

  /**
   * The mean of the range R of n results: d2(n) = ∫ (1 - Φ(x)^n - (1 - Φ(x))^n) dx over all x, with
   * Φ the normal distribution function; d2(2) = 2/√π.
   *
   * @param n how many results, from 2 to 25 inclusive
   * @throws IllegalArgumentException for any other n
   */
  public static double d2(int n) {
    return new NormalRange(n).mean();
  }

  /**
   * The standard deviation of the range R of n results: d3(n)² = E(R²) - d2(n)², with E(R²) = ∫ 2r
   * P(R &gt; r) dr over r &gt; 0; d3(2) = √(2 - 4/π).
   *
   * @param n how many results, from 2 to 25 inclusive
   * @throws IllegalArgumentException for any other n
   */
  public static double d3(int n) {
    return new NormalRange(n).standardDeviation();
  }

  /**
   * The mean of the standard deviation of n results (with divisor n - 1): c4(n) = √(2/(n-1)) Γ(n/2)
   * / Γ((n-1)/2).
   *
   * @param n how many results, at least 2
   * @throws IllegalArgumentException for fewer
   */
  public static double c4(int n) {
    if (n < 2) {
      throw new IllegalArgumentException(
          "A standard deviation needs at least 2 results, not " + n + ".");
    }
    // Γ(x + 1/2) / Γ(x) = √π / B(x, 1/2): unlike the gamma functions, the beta function neither
    // overflows nor cancels when n is large.
    return Math.sqrt(2 * Math.PI / (n - 1)) * Math.exp(-Beta.logBeta((n - 1) / 2.0, 0.5));
  }
}
