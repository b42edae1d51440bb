package org.sapotrace.chemistry;

import java.util.Collections;
import java.util.List;
import org.hipparchus.stat.descriptive.StreamingStatistics;
import org.jspecify.annotations.Nullable;

/**
 * Blanks titrated one after the other.
 *
 * @param mean of them, in mL, finite
 * @param standardDeviation s0 of single blanks, in mL, finite and at least 0
 * @param n how many, at least 2
 * @param outlier the one that stands out from the others by Grubbs' test beyond 1 %, in mL; null
 *     for none
 */
public record BlankSeries(double mean, double standardDeviation, int n, @Nullable Double outlier) {

  /** Refuses what no series gives with {@link IllegalArgumentException}. */
  public BlankSeries {
    boolean isKnown =
        Double.isFinite(mean)
            && standardDeviation >= 0
            && standardDeviation < Double.POSITIVE_INFINITY;
    if (n < 2 || !isKnown) {
      throw new IllegalArgumentException(
          "A series of blanks needs two of them at least, all numbers that can be read in mL.");
    }
  }

  /** A series of which no blank stands out. */
  public BlankSeries(double mean, double standardDeviation, int n) {
    this(mean, standardDeviation, n, null);
  }

  /**
   * The series of some blanks.
   *
   * @param millilitres of each
   * @throws IllegalArgumentException for fewer than 2
   */
  public static BlankSeries of(List<Double> millilitres) {
    StreamingStatistics statistics = new StreamingStatistics();
    millilitres.forEach(statistics::addValue);
    // What rounding errors make of equal blanks is no scatter.
    boolean isAllOne =
        millilitres.size() > 1 && Collections.min(millilitres).equals(Collections.max(millilitres));
    return new BlankSeries(
        isAllOne ? millilitres.get(0) : statistics.getMean(),
        isAllOne ? 0 : statistics.getStandardDeviation(),
        millilitres.size(),
        isAllOne || millilitres.size() < 3 ? null : outlier(millilitres));
  }

  private static @Nullable Double outlier(List<Double> millilitres) {
    OutlierCheck check = OutlierCheck.grubbs(millilitres);
    return check.finding() == OutlierCheck.Finding.OUTLIER ? millilitres.get(check.index()) : null;
  }

  int degreesOfFreedom() {
    return n - 1;
  }

  /**
   * What limits of detection are taken from: s0, or, as equal readings do not show that nothing
   * scatters, the reading error of the scale where all blanks read the same.
   */
  double scatterMl(Glassware scale) {
    return standardDeviation == 0 ? scale.readingMl() : standardDeviation;
  }
}
