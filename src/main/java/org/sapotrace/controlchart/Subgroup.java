package org.sapotrace.controlchart;

import java.util.List;
import org.hipparchus.stat.StatUtils;

/**
 * Values that make one result together, because they were found under the same conditions; a single
 * result is a subgroup of one. How far they scatter within it says how far they scatter by chance.
 *
 * @param values from 1 to {@value #MAX_SIZE} finite values, in one unit
 */
public record Subgroup(List<Double> values) {

  /** The largest number of values, inclusive. */
  public static final int MAX_SIZE = 100;

  /**
   * Takes values together.
   *
   * @throws IllegalArgumentException for none, too many, or values that are not finite
   */
  public Subgroup {
    values = List.copyOf(values);
    if (values.isEmpty() || values.size() > MAX_SIZE) {
      throw new IllegalArgumentException(
          "A subgroup has 1 to %d values, not %d.".formatted(MAX_SIZE, values.size()));
    }
    if (!values.stream().allMatch(Double::isFinite)) {
      throw new IllegalArgumentException(
          "A control chart takes finite numbers only. Leave out results that are none.");
    }
  }

  /** A single result. */
  public static Subgroup of(double value) {
    return new Subgroup(List.of(value));
  }

  /** n, how many values there are. */
  public int size() {
    return values.size();
  }

  /** Their arithmetic mean; a single value as it is. */
  public double mean() {
    return size() == 1 ? values.get(0) : StatUtils.mean(array());
  }

  /** R, the largest less the least; NaN for a single value. */
  public double range() {
    return size() == 1 ? Double.NaN : StatUtils.max(array()) - StatUtils.min(array());
  }

  /** s, with divisor n - 1; NaN for a single value. */
  public double standardDeviation() {
    return size() == 1 ? Double.NaN : Math.sqrt(StatUtils.variance(array()));
  }

  private double[] array() {
    return values.stream().mapToDouble(Double::doubleValue).toArray();
  }
}
