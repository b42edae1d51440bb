package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;

/**
 * Results from which limits are estimated, in order of time. Where results between them were
 * excluded, there is a gap; neighbours across a gap do not make a moving range, because they did
 * not follow each other.
 */
public final class Baseline {

  private final List<double[]> stretches;

  private Baseline(List<double[]> stretches) {
    double[] values = stretches.stream().flatMapToDouble(Arrays::stream).toArray();
    if (values.length < 2) {
      throw new IllegalArgumentException(
          "A standard deviation needs at least 2 results, not " + values.length + ".");
    }
    if (stretches.stream().noneMatch(stretch -> stretch.length > 1)) {
      throw new IllegalArgumentException(
          "A baseline needs at least 2 results that follow each other. Exclude fewer of them.");
    }
    if (!DoubleStream.of(values).allMatch(Double::isFinite)) {
      throw new IllegalArgumentException(
          "A standard deviation needs results that are finite numbers. Leave out those that are"
              + " not.");
    }
    this.stretches = stretches;
  }

  /**
   * Results without a gap.
   *
   * @param values at least 2 finite results
   * @throws IllegalArgumentException for fewer, or others
   */
  public static Baseline of(double[] values) {
    return new Baseline(List.of(values.clone()));
  }

  /**
   * Results in stretches, with a gap between each and the next.
   *
   * @param stretches of finite results, at least one of them of 2
   * @throws IllegalArgumentException for others
   */
  public static Baseline withGaps(List<double[]> stretches) {
    return new Baseline(stretches.stream().map(double[]::clone).toList());
  }

  /** How many results there are, at least 2. */
  public int size() {
    return stretches.stream().mapToInt(stretch -> stretch.length).sum();
  }

  /** All results, in order. */
  public double[] values() {
    return stretches.stream().flatMapToDouble(Arrays::stream).toArray();
  }

  /** The results from one gap to the next, in order. */
  public List<double[]> stretches() {
    return stretches.stream().map(double[]::clone).toList();
  }

  /** |x_i - x_(i-1)| within the stretches, in order; at least one. */
  public double[] movingRanges() {
    return stretches.stream().flatMapToDouble(Baseline::movingRanges).toArray();
  }

  private static DoubleStream movingRanges(double[] values) {
    return IntStream.range(1, values.length).mapToDouble(i -> Math.abs(values[i] - values[i - 1]));
  }
}
