package org.sapotrace.chemistry;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.correlation.SpearmansCorrelation;
import org.hipparchus.stat.descriptive.StreamingStatistics;

/**
 * How precise titrations are, from groups of replicates: ISO 5725-2:1994, 7.4. Nothing is dropped:
 * {@link #largestVariance} says what stands out.
 *
 * @param groups each the replicates of one analyst on the same sample, or, for the repeatability
 *     alone, of one determination each; at least one with 2 or more replicates, none empty, all
 *     finite
 */
public record PrecisionStudy(List<List<Double>> groups) {

  /** The least number of replicated groups, inclusive, that show whether scatter has a level. */
  public static final int FEWEST_LEVELS = 5;

  /** The probability, exclusive, below which scatter depends on the level. */
  public static final double DEPENDS_BELOW = 0.05;

  /** Refuses groups that say nothing about scatter with {@link IllegalArgumentException}. */
  public PrecisionStudy {
    groups = groups.stream().map(List::copyOf).toList();
    if (!groups.stream().flatMap(List::stream).allMatch(Double::isFinite)) {
      throw new IllegalArgumentException("Every replicate must be a number.");
    }
    if (groups.stream().anyMatch(List::isEmpty)
        || groups.stream().noneMatch(each -> each.size() > 1)) {
      throw new IllegalArgumentException(
          "Precision needs replicates in every group, and two or more in one at least.");
    }
  }

  /** The degrees of freedom of the repeatability: the sum of n_i - 1. */
  public int degreesOfFreedom() {
    return groups.stream().mapToInt(each -> each.size() - 1).sum();
  }

  /**
   * The repeatability standard deviation s_r = sqrt(sum (n_i - 1) s_i^2 / sum (n_i - 1)), pooled
   * over the groups, whose levels may differ.
   */
  public double repeatability() {
    double sumOfSquares =
        groups.stream()
            .mapToDouble(each -> (each.size() - 1) * statistics(each).getVariance())
            .sum();
    return Math.sqrt(sumOfSquares / degreesOfFreedom());
  }

  /**
   * Cochran's test of the largest variance among the groups with 2 or more replicates: C = s_max^2
   * / sum s_i^2, ISO 5725-2:1994, 7.3.3. For unequal sizes the mean size is taken.
   *
   * @throws IllegalArgumentException for fewer than 2 such groups, or if none scatters
   */
  public OutlierCheck largestVariance() {
    List<Double> variances =
        groups.stream()
            .filter(each -> each.size() > 1)
            .map(each -> statistics(each).getVariance())
            .toList();
    return OutlierCheck.cochran(variances, (double) degreesOfFreedom() / variances.size());
  }

  /**
   * Whether the scatter depends on the level, so that a pooled repeatability fits no level: the
   * probability, if it did not, of a rank correlation between level and standard deviation (groups
   * with 2 or more replicates) as strong as the one found, by Student's t with g - 2 degrees of
   * freedom, t = r sqrt((g - 2) / (1 - r^2)). Below 0.05 it depends on the level. It is 1 for fewer
   * than {@value #FEWEST_LEVELS} different levels, or where all scatter alike: one group that lies
   * higher than others of one level, and scatters more, would otherwise be certain evidence.
   *
   * @throws IllegalArgumentException for fewer than {@value #FEWEST_LEVELS} such groups
   */
  public double levelDependence() {
    double r = rankCorrelation();
    int freedom = repeated().size() - 2;
    double t = Math.abs(r) * Math.sqrt(freedom / Math.max(0, 1 - r * r));
    return 2 * new TDistribution(freedom).cumulativeProbability(-t);
  }

  /**
   * Whether the scatter grows with the level: it depends on it, and the correlation is positive.
   *
   * @throws IllegalArgumentException for fewer than {@value #FEWEST_LEVELS} such groups
   */
  public boolean growsWithLevel() {
    return levelDependence() < DEPENDS_BELOW && rankCorrelation() > 0;
  }

  /** 0 where too few levels are different, or no scatter is: nothing depends on anything. */
  private double rankCorrelation() {
    List<StreamingStatistics> repeated = repeated();
    if (repeated.size() < FEWEST_LEVELS) {
      throw new IllegalArgumentException(
          "Whether scatter depends on the level shows with %d replicated samples at least."
              .formatted(FEWEST_LEVELS));
    }
    double[] levels = repeated.stream().mapToDouble(StreamingStatistics::getMean).toArray();
    if (Arrays.stream(levels).distinct().count() < FEWEST_LEVELS) {
      return 0;
    }
    double r =
        new SpearmansCorrelation()
            .correlation(
                levels,
                repeated.stream().mapToDouble(StreamingStatistics::getStandardDeviation).toArray());
    return Double.isNaN(r) ? 0 : r;
  }

  private List<StreamingStatistics> repeated() {
    return groups.stream().filter(each -> each.size() > 1).map(PrecisionStudy::statistics).toList();
  }

  private static StreamingStatistics statistics(List<Double> group) {
    StreamingStatistics statistics = new StreamingStatistics();
    group.forEach(statistics::addValue);
    return statistics;
  }
}
