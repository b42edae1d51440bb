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
   * @param values finite results
   * @throws IllegalArgumentException for others
   */
  public static Baseline of(double[] values) {
    return new Baseline(List.of(values.clone()));
  }

  /**
   * Results in stretches, with a gap between each and the next.
   *
   * @param stretches of finite results
   * @throws IllegalArgumentException for others
   */
  public static Baseline withGaps(List<double[]> stretches) {
    return new Baseline(stretches.stream().map(double[]::clone).toList());
  }

  /** How many results there are. */
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

  /** |x_i - x_(i-1)| within the stretches, in order. */
  public double[] movingRanges() {
    return stretches.stream().flatMapToDouble(Baseline::movingRanges).toArray();
  }

  private static DoubleStream movingRanges(double[] values) {
    return IntStream.range(1, values.length).mapToDouble(i -> Math.abs(values[i] - values[i - 1]));
  }
}
