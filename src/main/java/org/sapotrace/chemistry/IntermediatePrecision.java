package org.sapotrace.chemistry;

import java.util.List;
import java.util.stream.Stream;

/**
 * How far single titrations of one sample scatter when different analysts titrate it, on one bench
 * with one method: intermediate precision with the analyst changed, in the sense of ISO 5725-3.
 *
 * <p>By the analysis of variance of ISO 5725-2:1994, 7.4.5, with analysts i in the place of
 * laboratories, each sample j by itself, and pooled over the samples by degrees of freedom. With
 * n_ij replicates that have mean y_ij and standard deviation s_ij, N_j of them and p_j analysts on
 * a sample of mean y_j:
 *
 * <pre>
 * s_r^2 = sum (n_ij - 1) s_ij^2 / sum (n_ij - 1)
 * s_d^2 = sum n_ij (y_ij - y_j)^2 / sum (p_j - 1)
 * s_L^2 = (s_d^2 - s_r^2) / n,  n = sum (N_j - sum n_ij^2 / N_j) / sum (p_j - 1)
 * </pre>
 *
 * @param repeatability s_r, between titrations by one analyst; finite and at least 0
 * @param between s_L, between analysts beyond what s_r explains; 0 where its square comes out
 *     negative
 */
public record IntermediatePrecision(double repeatability, double between) {

  /** Refuses what are no standard deviations with {@link IllegalArgumentException}. */
  public IntermediatePrecision {
    if (!(repeatability >= 0 && between >= 0 && Double.isFinite(repeatability + between))) {
      throw new IllegalArgumentException("Standard deviations must be numbers of at least 0.");
    }
  }

  /**
   * The precision that samples show.
   *
   * @param samples one or more, each with the replicates of 2 or more analysts; some analyst
   *     titrated a sample twice
   * @throws IllegalArgumentException for any other samples
   */
  public static IntermediatePrecision of(List<List<List<Double>>> samples) {
    if (samples.isEmpty() || samples.stream().anyMatch(sample -> sample.size() < 2)) {
      throw new IllegalArgumentException(
          "Precision between analysts needs samples that two analysts titrated at least.");
    }
    double within =
        new PrecisionStudy(samples.stream().flatMap(List::stream).toList()).repeatability();
    double squares = 0;
    double size = 0;
    int freedom = 0;
    for (List<List<Double>> analysts : samples) {
      double total = analysts.stream().mapToInt(List::size).sum();
      double mean = mean(analysts.stream().flatMap(List::stream));
      for (List<Double> replicates : analysts) {
        double deviation = mean(replicates.stream()) - mean;
        squares += replicates.size() * deviation * deviation;
        size += replicates.size() * (1 - replicates.size() / total);
      }
      freedom += analysts.size() - 1;
    }
    double variance = (squares - freedom * within * within) / size;
    return new IntermediatePrecision(within, Math.sqrt(Math.max(0, variance)));
  }

  /** sqrt(s_r^2 + s_L^2), between single titrations of one sample by any analysts. */
  public double standardDeviation() {
    return Math.hypot(repeatability, between);
  }

  private static double mean(Stream<Double> values) {
    return values.mapToDouble(each -> each).average().orElseThrow();
  }
}
