package org.sapotrace.baseline;

import org.hipparchus.special.Gamma;
import org.hipparchus.stat.StatUtils;

/**
 * How much successive results resemble each other: limits from moving ranges suppose that they do
 * not.
 *
 * <p>r_k = Σ (x_i - x̄)(x_(i+k) - x̄) / Σ (x_i - x̄)². The portmanteau statistic Q = n (n + 2) Σ
 * r_k²/(n - k), summed over the lags k = 1 to h, has a chi-squared distribution with h degrees of
 * freedom where results are independent. Source: G. M. Ljung, G. E. P. Box, On a measure of lack of
 * fit in time series models, Biometrika 65 (1978) 297, doi:10.1093/biomet/65.2.297.
 *
 * @param lag1 r_1, from -1 to 1; positive where neighbours resemble each other
 * @param lags h, at least 1
 * @param ljungBox Q, at least 0
 * @param pValue how often independent results reach Q, from 0 to 1
 */
public record Autocorrelation(double lag1, int lags, double ljungBox, double pValue) {

  private static final int USUAL_LAGS = 10;

  /**
   * Of results, over h = min(10, n/5) lags, at least one: R. J. Hyndman, G. Athanasopoulos,
   * Forecasting: Principles and Practice, 3rd edition, section 5.4.
   *
   * @param values at least 3 finite results in order of time, not all equal
   * @throws IllegalArgumentException for any others
   */
  public static Autocorrelation of(double[] values) {
    return of(values, Math.max(1, Math.min(USUAL_LAGS, values.length / 5)));
  }

  /**
   * Of results, over a number of lags.
   *
   * @param values at least 3 finite results in order of time, not all equal
   * @param lags from 1 to one less than there are results
   * @throws IllegalArgumentException for any others
   */
  public static Autocorrelation of(double[] values, int lags) {
    int n = values.length;
    double variance = StatUtils.populationVariance(values);
    if (n < 3 || lags < 1 || lags >= n || !(variance > 0 && Double.isFinite(variance))) {
      throw new IllegalArgumentException(
          "Autocorrelation needs at least 3 finite results that are not all equal, and fewer lags"
              + " than results.");
    }
    double sum = 0;
    for (int lag = 1; lag <= lags; lag++) {
      double r = correlation(values, lag);
      sum += r * r / (n - lag);
    }
    double statistic = n * (n + 2.0) * sum;
    return new Autocorrelation(
        correlation(values, 1),
        lags,
        statistic,
        Gamma.regularizedGammaQ(lags / 2.0, statistic / 2));
  }

  private static double correlation(double[] values, int lag) {
    double mean = StatUtils.mean(values);
    double products = 0;
    double squares = 0;
    for (int i = 0; i < values.length; i++) {
      double deviation = values[i] - mean;
      squares += deviation * deviation;
      products += i < lag ? 0 : (values[i - lag] - mean) * deviation;
    }
    return products / squares;
  }
}
