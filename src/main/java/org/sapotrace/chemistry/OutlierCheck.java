package org.sapotrace.chemistry;

import java.util.Collections;
import java.util.List;
import org.hipparchus.distribution.continuous.FDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.hipparchus.stat.descriptive.StreamingStatistics;

/**
 * Whether one of several figures stands out from the rest: ISO 5725-2:1994, 7.3. The critical
 * values are computed, as printed tables are rounded.
 *
 * @param index which figure is tested, counted from 0
 * @param statistic C or G
 * @param stragglerAbove its critical value at 5 %
 * @param outlierAbove its critical value at 1 %
 */
public record OutlierCheck(
    int index, double statistic, double stragglerAbove, double outlierAbove) {

  /** What a figure that is tested counts as. */
  public enum Finding {
    /** At most the 5 % critical value. */
    CORRECT("correct"),
    /** Above the 5 % and at most the 1 % critical value: kept, with a mark. */
    STRAGGLER("straggler"),
    /** Above the 1 % critical value: a cause is looked for. */
    OUTLIER("outlier");

    private final String id;

    Finding(String id) {
      this.id = id;
    }

    /** The name in the interface, such as {@code straggler}. */
    public String id() {
      return id;
    }
  }

  private static final double STRAGGLER = 0.05;
  private static final double OUTLIER = 0.01;

  /** What the tested figure counts as. */
  public Finding finding() {
    if (statistic > outlierAbove) {
      return Finding.OUTLIER;
    }
    return statistic > stragglerAbove ? Finding.STRAGGLER : Finding.CORRECT;
  }

  /** The same of a figure that is counted otherwise. */
  OutlierCheck ofIndex(int other) {
    return new OutlierCheck(other, statistic, stragglerAbove, outlierAbove);
  }

  /**
   * Cochran's test of the largest of several variances: C = s_max^2 / sum s_i^2.
   *
   * @param variances s_i^2, at least 2, each at least 0 and not all 0
   * @param degreesOfFreedom of each, more than 0
   */
  static OutlierCheck cochran(List<Double> variances, double degreesOfFreedom) {
    double sum = variances.stream().mapToDouble(each -> each).sum();
    if (!(variances.size() >= 2 && sum > 0)) {
      throw new IllegalArgumentException(
          "Cochran's test needs two groups of replicates at least, and some scatter.");
    }
    double largest = Collections.max(variances);
    return new OutlierCheck(
        variances.indexOf(largest),
        largest / sum,
        cochranCritical(variances.size(), degreesOfFreedom, STRAGGLER),
        cochranCritical(variances.size(), degreesOfFreedom, OUTLIER));
  }

  /**
   * Grubbs' test of the figure farthest from the mean of all, to either side: G = max |y_i - y| /
   * s.
   *
   * @param figures at least 3, not all equal
   * @throws IllegalArgumentException for any others
   */
  public static OutlierCheck grubbs(List<Double> figures) {
    StreamingStatistics all = new StreamingStatistics();
    figures.forEach(all::addValue);
    if (!(figures.size() >= 3 && all.getStandardDeviation() > 0)) {
      throw new IllegalArgumentException(
          "Grubbs' test needs three figures at least that are not all equal.");
    }
    List<Double> distances =
        figures.stream()
            .map(each -> Math.abs(each - all.getMean()) / all.getStandardDeviation())
            .toList();
    double largest = Collections.max(distances);
    return new OutlierCheck(
        distances.indexOf(largest),
        largest,
        grubbsCritical(figures.size(), STRAGGLER),
        grubbsCritical(figures.size(), OUTLIER));
  }

  /**
   * 1 / (1 + (p - 1) / F) with F the upper alpha/p point for nu and (p - 1) nu degrees of freedom:
   * the largest of p variances is one of them with p times the probability.
   */
  static double cochranCritical(int p, double nu, double alpha) {
    double f = new FDistribution(nu, (p - 1) * nu).inverseCumulativeProbability(1 - alpha / p);
    return 1 / (1 + (p - 1) / f);
  }

  /**
   * (p - 1) / sqrt(p) sqrt(t^2 / (p - 2 + t^2)) with t the upper alpha/(2p) point of Student's t
   * for p - 2 degrees of freedom. F. E. Grubbs, Technometrics 11 (1969) 1,
   * doi:10.1080/00401706.1969.10490657.
   */
  static double grubbsCritical(int p, double alpha) {
    double t = new TDistribution(p - 2).inverseCumulativeProbability(1 - alpha / (2 * p));
    return (p - 1) / Math.sqrt(p) * Math.sqrt(t * t / (p - 2 + t * t));
  }
}
