package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Results from which limits are estimated, in order of time: single results or subgroups. Where
 * results between them were excluded, there is a gap; neighbours across a gap do not make a moving
 * range, because they did not follow each other.
 */
public final class Baseline {

  private final List<List<Subgroup>> stretches;

  private Baseline(List<List<Subgroup>> stretches) {
    this.stretches = stretches;
  }

  /**
   * Single results without a gap.
   *
   * @param values finite results
   * @throws IllegalArgumentException for others
   */
  public static Baseline of(double[] values) {
    return withGaps(List.of(values));
  }

  /**
   * Single results in stretches, with a gap between each and the next.
   *
   * @param stretches of finite results
   * @throws IllegalArgumentException for others
   */
  public static Baseline withGaps(List<double[]> stretches) {
    return ofSubgroups(
        stretches.stream()
            .map(stretch -> Arrays.stream(stretch).mapToObj(Subgroup::of).toList())
            .toList());
  }

  /** Subgroups in stretches, with a gap between each and the next. */
  public static Baseline ofSubgroups(List<List<Subgroup>> stretches) {
    return new Baseline(stretches.stream().map(List::copyOf).toList());
  }

  /** How many results there are, counting a subgroup as one. */
  public int size() {
    return stretches.stream().mapToInt(List::size).sum();
  }

  /** All subgroups, in order; single results as subgroups of one. */
  public List<Subgroup> subgroups() {
    return stretches.stream().flatMap(List::stream).toList();
  }

  /** All results, in order; of subgroups their means. */
  public double[] values() {
    return subgroups().stream().mapToDouble(Subgroup::mean).toArray();
  }

  /** All values, in order, those of one subgroup behind each other. */
  public double[] singleValues() {
    return subgroups().stream()
        .flatMap(subgroup -> subgroup.values().stream())
        .mapToDouble(Double::doubleValue)
        .toArray();
  }

  /**
   * All results, in order, as if each had the standard deviation of a single value: the mean of n
   * values becomes centre + √n (mean - centre). Single results as they are.
   */
  public double[] standardised(double centre) {
    return subgroups().stream().mapToDouble(subgroup -> standardised(subgroup, centre)).toArray();
  }

  private static double standardised(Subgroup subgroup, double centre) {
    double mean = subgroup.mean();
    return subgroup.size() == 1 ? mean : centre + Math.sqrt(subgroup.size()) * (mean - centre);
  }

  /** The results from one gap to the next, in order. */
  public List<List<Subgroup>> stretches() {
    return stretches;
  }

  /** |x_i - x_(i-1)| within the stretches, in order; of subgroups between their means. */
  public double[] movingRanges() {
    return stretches.stream().flatMapToDouble(Baseline::movingRanges).toArray();
  }

  private static DoubleStream movingRanges(List<Subgroup> stretch) {
    return IntStream.range(1, stretch.size())
        .mapToDouble(i -> Math.abs(stretch.get(i).mean() - stretch.get(i - 1).mean()));
  }
}
