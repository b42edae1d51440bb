package org.sapotrace.controlchart;

import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hipparchus.analysis.UnivariateFunction;
import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.special.Beta;
import org.hipparchus.special.Erf;

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
  public static final int MAX_RANGE_SIZE = 25;

  private static final double SQRT_2 = Math.sqrt(2);
  private static final GaussIntegratorFactory QUADRATURE = new GaussIntegratorFactory();
  // A normal result lies beyond 9 once in 1e18. For n = 25 the integrands are only about 0.2 wide:
  // fewer nodes would miss their shape.
  private static final double FAR = 9;
  private static final int NODES = 160;
  // A range of 25 lies beyond 12 once in 1e14. Going further would only gather rounding errors.
  private static final double FAR_RANGE = 12;
  private static final int RANGE_NODES = 80;

  private static final Map<Integer, Double> D2 = new ConcurrentHashMap<>();
  private static final Map<Integer, Double> D3 = new ConcurrentHashMap<>();

  private ControlChartConstants() {}

  /**
   * The mean of the range R of n results: d2(n) = ∫ (1 - Φ(x)^n - (1 - Φ(x))^n) dx over all x, with
   * Φ the normal distribution function; d2(2) = 2/√π.
   *
   * @param n how many results, from 2 to 25 inclusive
   * @throws IllegalArgumentException for any other n
   */
  public static double d2(int n) {
    return D2.computeIfAbsent(checkedRangeSize(n), ControlChartConstants::meanRange);
  }

  /**
   * The standard deviation of the range R of n results: d3(n)² = E(R²) - d2(n)², with E(R²) = ∫ 2r
   * P(R &gt; r) dr over r &gt; 0; d3(2) = √(2 - 4/π).
   *
   * @param n how many results, from 2 to 25 inclusive
   * @throws IllegalArgumentException for any other n
   */
  public static double d3(int n) {
    return D3.computeIfAbsent(checkedRangeSize(n), ControlChartConstants::deviationOfRange);
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

  private static int checkedRangeSize(int n) {
    if (n >= 2 && n <= MAX_RANGE_SIZE) {
      return n;
    }
    throw new IllegalArgumentException(
        "A range is taken of 2 to %d results, not %d. Use the standard deviation for more."
            .formatted(MAX_RANGE_SIZE, n));
  }

  private static double meanRange(int n) {
    if (n == 2) {
      return 2 / Math.sqrt(Math.PI);
    }
    return overAllResults(
        x -> 1 - Math.pow(probabilityBelow(x), n) - Math.pow(probabilityBelow(-x), n));
  }

  private static double deviationOfRange(int n) {
    if (n == 2) {
      return Math.sqrt(2 - 4 / Math.PI);
    }
    double meanSquare =
        QUADRATURE
            .legendre(RANGE_NODES, 0, FAR_RANGE)
            .integrate(r -> 2 * r * (1 - probabilityOfRangeBelow(r, n)));
    return Math.sqrt(meanSquare - d2(n) * d2(n));
  }

  /** P(R ≤ r) = n ∫ φ(x) (Φ(x + r) - Φ(x))^(n-1) dx: x is the least result, the others above it. */
  private static double probabilityOfRangeBelow(double r, int n) {
    return overAllResults(x -> n * density(x) * Math.pow(probabilityBetween(x, x + r), n - 1));
  }

  private static double overAllResults(UnivariateFunction function) {
    return QUADRATURE.legendre(NODES, -FAR, FAR).integrate(function);
  }

  private static double density(double x) {
    return Math.exp(-x * x / 2) / Math.sqrt(2 * Math.PI);
  }

  private static double probabilityBelow(double x) {
    return Erf.erfc(-x / SQRT_2) / 2;
  }

  private static double probabilityBetween(double lower, double upper) {
    return Erf.erf(lower / SQRT_2, upper / SQRT_2) / 2;
  }
}
