package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * How far single titrations of one sample by one analyst scatter, found from a bench's own
 * replicates.
 *
 * @param standardDeviation s_r in the unit of the figure, or, where it is proportional, as a
 *     fraction of the figure; finite and at least 0
 * @param isProportional whether it grows with the level of the figure
 * @param degreesOfFreedom of it, at least 1
 */
public record Repeatability(
    double standardDeviation, boolean isProportional, int degreesOfFreedom) {

  /**
   * A repeatability with what it was pooled from.
   *
   * @param sets how many sets of replicates it is pooled from
   * @param levelDependence the probability by {@link PrecisionStudy#levelDependence}; null for
   *     fewer than {@value PrecisionStudy#FEWEST_LEVELS} sets
   * @param largest the check of the set that scatters most, by its index among all; null for a
   *     single set and where none scatters
   * @param leftOut the sets that stood out and were left out of it, each by its index among all,
   *     worst first
   */
  public record Pooled(
      Repeatability repeatability,
      int sets,
      @Nullable Double levelDependence,
      @Nullable OutlierCheck largest,
      List<OutlierCheck> leftOut) {

    public Pooled {
      leftOut = List.copyOf(leftOut);
    }
  }

  // One set in so many. Where more stand out, such scatter is the bench's own.
  private static final int MOST_LEFT_OUT = 10;

  /** Refuses what is no standard deviation with {@link IllegalArgumentException}. */
  public Repeatability {
    if (!(standardDeviation >= 0 && standardDeviation < Double.POSITIVE_INFINITY)
        || degreesOfFreedom < 1) {
      throw new IllegalArgumentException(
          "The repeatability must be a number of at least 0 with a degree of freedom at least.");
    }
  }

  /**
   * Whether a source of a titration's budget errs anew each time, so that two titrations of the
   * same sample differ by it.
   *
   * @param source in words, as the budget names it
   */
  public static boolean includes(String source) {
    return Arrays.stream(ErrorSource.values())
        .anyMatch(each -> each.scope() == ErrorSource.Scope.EACH && each.words().equals(source));
  }

  /**
   * The repeatability pooled from sets i of n_i replicates with mean m_i and standard deviation
   * s_i. ISO 5725-2:1994, 7.4.5.1: s_r = sqrt(sum (n_i - 1) s_i^2 / sum (n_i - 1)).
   *
   * <p>Where the scatter grows with the level and all m_i are positive, s_r = b m, the first of the
   * three relations of ISO 5725-2:1994, 7.5, and b is pooled likewise: b = sqrt(sum (n_i - 1) (s_i
   * / m_i)^2 / sum (n_i - 1)). (The standard takes the mean of s_i / m_i; for pairs that falls
   * short by a fifth, as the mean of a standard deviation of two does.)
   *
   * <p>Sets whose replicates were found to disagree count like any other: without them s_r would
   * come out too low, more sets would disagree by it, and it would fall ever further. Only a set
   * that stands out by Cochran's test beyond 1 %, in s_i or s_i / m_i, is left out, as a single
   * slip would make the bench blind to the next one: ISO 5725-2:1994, 7.3.3 (from memory). Without
   * any slip that befalls one pool in a hundred. The test is repeated, up to a tenth of the sets.
   *
   * @param sets one or more, each of 2 or more finite replicates of one sample
   * @throws IllegalArgumentException for any other sets
   */
  public static Pooled pooled(List<List<Double>> sets) {
    PrecisionStudy study = new PrecisionStudy(sets);
    if (sets.stream().anyMatch(each -> each.size() < 2)) {
      throw new IllegalArgumentException("A single titration says nothing about scatter.");
    }
    Double levelDependence =
        sets.size() < PrecisionStudy.FEWEST_LEVELS ? null : (Double) study.levelDependence();
    boolean isProportional =
        levelDependence != null
            && study.growsWithLevel()
            && sets.stream().allMatch(each -> mean(each) > 0);
    List<List<Double>> kept = new ArrayList<>(isProportional ? relative(sets) : sets);
    OutlierCheck largest = largest(kept);
    List<OutlierCheck> leftOut = takeOutliers(kept);
    PrecisionStudy rest = new PrecisionStudy(kept);
    return new Pooled(
        new Repeatability(rest.repeatability(), isProportional, rest.degreesOfFreedom()),
        kept.size(),
        levelDependence,
        largest,
        leftOut);
  }

  /**
   * The repeatability of all of some sets, none left out.
   *
   * @param sets one or more, each of 1 or more finite replicates, some of 2 or more
   * @param isProportional whether it is told in proportion to the means, which are then all above 0
   * @throws IllegalArgumentException for any other sets
   */
  public static Repeatability ofAll(List<List<Double>> sets, boolean isProportional) {
    PrecisionStudy study = new PrecisionStudy(isProportional ? relative(sets) : sets);
    return new Repeatability(study.repeatability(), isProportional, study.degreesOfFreedom());
  }

  /** s_r at a level, in its unit. */
  public double at(double level) {
    return isProportional ? standardDeviation * Math.abs(level) : standardDeviation;
  }

  /** Takes the sets that stand out from among the sets, and tells them by their former indices. */
  private static List<OutlierCheck> takeOutliers(List<List<Double>> sets) {
    List<Integer> indices = new ArrayList<>(IntStream.range(0, sets.size()).boxed().toList());
    List<OutlierCheck> outliers = new ArrayList<>();
    int most = sets.size() / MOST_LEFT_OUT;
    while (outliers.size() < most) {
      OutlierCheck largest = largest(sets);
      if (largest == null || largest.finding() != OutlierCheck.Finding.OUTLIER) {
        break;
      }
      sets.remove(largest.index());
      outliers.add(largest.ofIndex(indices.remove(largest.index())));
    }
    return outliers;
  }

  private static @Nullable OutlierCheck largest(List<List<Double>> sets) {
    PrecisionStudy study = new PrecisionStudy(sets);
    return sets.size() < 2 || study.repeatability() == 0 ? null : study.largestVariance();
  }

  private static List<List<Double>> relative(List<List<Double>> sets) {
    return sets.stream().map(set -> set.stream().map(each -> each / mean(set)).toList()).toList();
  }

  private static double mean(List<Double> set) {
    return set.stream().mapToDouble(each -> each).average().orElseThrow();
  }
}
