package org.sapotrace.capability;

import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;

/**
 * How far a process in control stays from its specification limits, in half spreads of its results:
 * Cpu = (U - X50)/(X99.865 - X50) for an upper limit U, Cpl = (X50 - L)/(X50 - X0.135) for a lower
 * limit L, and Cpk the lesser of them. The percentiles are those of the distribution that describes
 * all results, so that drift between them counts; where it is normal, Cpu = (U - x̄)/(3 s).
 *
 * <p>Source: ISO 22514-2:2017 (percentile form); NIST/SEMATECH e-Handbook of Statistical Methods,
 * 6.1.6.
 *
 * @param n how many results, at least {@value #MIN_RESULTS}
 * @param mean of them
 * @param standardDeviation s, with divisor n - 1
 * @param shape the distribution that describes them
 * @param cpu towards the upper limit; null without one
 * @param cpl towards the lower limit; null without one
 * @param lowerBound what the true Cpk is not below, at that confidence; with two limits, the
 *     confidence is at least that
 * @param confidence one-sided
 */
public record Capability(
    int n,
    double mean,
    double standardDeviation,
    Shape shape,
    @Nullable Double cpu,
    @Nullable Double cpl,
    double lowerBound,
    double confidence) {

  /** The least number of results, inclusive. */
  public static final int MIN_RESULTS = 30;

  /**
   * Examines results.
   *
   * @param values at least {@value #MIN_RESULTS} finite results, not all equal, of a process in
   *     control
   * @param lower the lower limit; null for none
   * @param upper the upper limit; null for none, but not both
   * @param confidence one-sided, from 0.5 to 0.999, both inclusive
   * @throws IllegalArgumentException for any others, and where no distribution that is known here
   *     describes the results
   */
  public static Capability of(
      double[] values, @Nullable Double lower, @Nullable Double upper, double confidence) {
    if (!(confidence >= 0.5 && confidence <= 0.999)) {
      throw new IllegalArgumentException("The confidence of a bound is from 0.5 to 0.999.");
    }
    if (values.length < MIN_RESULTS) {
      throw new IllegalArgumentException(
          "Capability needs at least %d results, not %d: from fewer it misleads. Record more."
              .formatted(MIN_RESULTS, values.length));
    }
    if (lower == null && upper == null) {
      throw new IllegalArgumentException(
          "Capability needs a specification limit, and there is none. Give the stream one.");
    }
    Shape shape = Shape.describing(values);
    Double cpu = upper == null ? null : (Double) shape.index(upper, Tail.HIGH);
    Double cpl = lower == null ? null : (Double) shape.index(lower, Tail.LOW);
    return new Capability(
        values.length,
        StatUtils.mean(values),
        Math.sqrt(StatUtils.variance(values)),
        shape,
        cpu,
        cpl,
        Math.min(bound(shape, cpu, Tail.HIGH, confidence), bound(shape, cpl, Tail.LOW, confidence)),
        confidence);
  }

  /** The bound of an index; infinity where there is no limit on that side. */
  private static double bound(Shape shape, @Nullable Double index, Tail tail, double confidence) {
    return index == null ? Double.POSITIVE_INFINITY : shape.lowerBound(index, tail, confidence);
  }

  /** What the lesser of Cpu and Cpl is called: that of the only limit, or Cpk. */
  public String indexName() {
    return cpu == null ? "Cpl" : cpl == null ? "Cpu" : "Cpk";
  }

  /** The lesser of Cpu and Cpl. */
  public double cpk() {
    return Math.min(orInfinite(cpu), orInfinite(cpl));
  }

  private static double orInfinite(@Nullable Double index) {
    return index == null ? Double.POSITIVE_INFINITY : index;
  }
}
