package org.sapotrace.chemistry;

import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.hipparchus.stat.descriptive.rank.Median;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.NormalRange;

/**
 * Whether replicate titrations lie as close together as titrations of one sample do, and what is
 * reported: ISO 5725-6:1994, 5.2.2.
 *
 * <p>If the range of all n exceeds f(n) s_r, which repeatable titrations do 5 times in 100, as many
 * more are asked for as disagreed at first. If the range of them all is still too large, the median
 * is reported.
 *
 * @param value what is reported: the mean, or the median at the end
 * @param range the largest less the least
 * @param criticalRange f(n) s_r, with n the number of titrations so far; f is 2.77, 3.31, 3.63 for
 *     2, 3, 4, and for more than 25 that of 25, so that these are compared the more strictly
 * @param repeatability s_r, by which they were compared
 * @param accepted whether the value stands; otherwise it is provisional
 * @param branch what the value is, such as {@code mean of 2} or {@code median of 4}
 * @param needed how many more titrations are asked for; 0 where the value stands
 */
public record ReplicateAgreement(
    double value,
    double range,
    double criticalRange,
    double repeatability,
    boolean accepted,
    String branch,
    int needed) {

  private static final double PROBABILITY = 0.95;

  // The range of more is not tabulated, and nobody is sent to titrate so often.
  private static final int MOST = NormalRange.MAX_SIZE;

  /** f(n), kept because finding one takes as long as the rest of a titration. */
  private static final Map<Integer, Double> FACTORS = new ConcurrentHashMap<>();

  /**
   * The agreement of a determination's replicates by its own budget: s_r is what errs anew in each
   * titration, its reading, end points and mass.
   *
   * @throws IllegalArgumentException for fewer than 2 replicates
   */
  public static ReplicateAgreement of(Determination found) {
    return of(found.replicates(), repeatability(found));
  }

  /**
   * The agreement of a determination's replicates by what the bench's own replicates have shown.
   * s_r is taken at the level of their mean, but never less than what reading the scale leaves by
   * the budget: earlier replicates that came out equal do not make the scale any finer.
   *
   * @throws IllegalArgumentException for fewer than 2 replicates
   */
  public static ReplicateAgreement of(Determination found, Repeatability own) {
    return of(found.replicates(), Math.max(own.at(found.value()), resolution(found)));
  }

  /**
   * The agreement of replicates by a known repeatability.
   *
   * @param replicates what each titration gives, in the order titrated
   * @param repeatability s_r, the standard deviation of single titrations of one sample, finite and
   *     at least 0
   * @throws IllegalArgumentException for fewer than 2 replicates, or for what is no standard
   *     deviation
   */
  public static ReplicateAgreement of(List<Double> replicates, double repeatability) {
    if (!(repeatability >= 0 && repeatability < Double.POSITIVE_INFINITY)) {
      throw new IllegalArgumentException("The repeatability must be a number of at least 0.");
    }
    int n = replicates.size();
    double criticalRange = criticalRange(n, repeatability);
    double range = range(replicates);
    if (range <= criticalRange) {
      return new ReplicateAgreement(
          mean(replicates), range, criticalRange, repeatability, true, "mean of " + n, 0);
    }
    int asked = Math.min(2 * firstSeries(replicates, repeatability), MOST);
    return n < asked
        ? new ReplicateAgreement(
            mean(replicates), range, criticalRange, repeatability, false, "mean of " + n, asked - n)
        : new ReplicateAgreement(
            median(replicates), range, criticalRange, repeatability, true, "median of " + n, 0);
  }

  /**
   * The standard deviation of single titrations: u of the part that shrinks with n, times sqrt(n).
   */
  static double repeatability(Determination found) {
    return Math.sqrt(found.shrinkingVariance() * found.replicates().size());
  }

  /** The part of a single titration's standard deviation that comes from reading the scale. */
  private static double resolution(Determination found) {
    double ofMean =
        found.budget().contributions().stream()
            .filter(each -> each.source().equals(ErrorSource.READING.words()))
            .mapToDouble(Contribution::standardUncertainty)
            .sum();
    return ofMean * Math.sqrt(found.replicates().size());
  }

  /**
   * How many titrations there were before more were asked for: the shortest beginning that
   * disagreed, as nobody titrates again before that.
   */
  private static int firstSeries(List<Double> replicates, double repeatability) {
    int first = 2;
    while (range(replicates.subList(0, first)) <= criticalRange(first, repeatability)) {
      first++;
    }
    return first;
  }

  /**
   * The range f(n) s_r that repeatable titrations exceed 5 times in 100.
   *
   * @param n how many, at least 2; more than 25 count as 25
   * @param repeatability s_r, at least 0
   */
  public static double criticalRange(int n, double repeatability) {
    return FACTORS.computeIfAbsent(
            Math.min(n, MOST), size -> new NormalRange(size).quantile(PROBABILITY))
        * repeatability;
  }

  private static double range(List<Double> values) {
    return Collections.max(values) - Collections.min(values);
  }

  private static double mean(List<Double> values) {
    return values.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }

  private static double median(List<Double> values) {
    return new Median().evaluate(values.stream().mapToDouble(Double::doubleValue).toArray());
  }
}
