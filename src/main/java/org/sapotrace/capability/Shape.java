package org.sapotrace.capability;

import java.util.Arrays;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.baseline.AndersonDarling;
import org.sapotrace.baseline.BoxCox;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.measure.Rounding;

/**
 * The distribution that describes results: normal, or normal after a transform of Box and Cox. The
 * percentile of a standard score z is T⁻¹(m + z s), with T the transform, or none, and m and s the
 * mean and the standard deviation of the transformed results.
 *
 * @param n how many results, at least 2
 * @param centre m
 * @param spread s, above 0, with divisor n - 1
 * @param transform null for the normal distribution itself
 */
public record Shape(int n, double centre, double spread, @Nullable PowerTransform transform) {

  /** The score of the percentiles 0.135 and 99.865. */
  private static final double SCORE = 3;

  /** Above it, the test of Anderson and Darling leaves the normal distribution as it is. */
  private static final double PLAUSIBLE = 0.05;

  /** Below it, results are described by none of both. */
  private static final double IMPOSSIBLE = 0.005;

  /**
   * The shape of results: normal where that is plausible, else whichever of both fits better.
   *
   * @param values at least 8 finite results, not all equal
   * @throws IllegalArgumentException for others, and where neither fits
   */
  static Shape describing(double[] values) {
    double normal = AndersonDarling.of(values).pValue();
    BoxCox boxCox = normal >= PLAUSIBLE ? null : BoxCox.of(values);
    Shape plain = of(values, null);
    if (boxCox == null) {
      return fitting(plain, normal);
    }
    PowerTransform transform = boxCox.transform();
    double[] transformed = Arrays.stream(values).map(transform::apply).toArray();
    double transformedNormal = AndersonDarling.of(transformed).pValue();
    return transformedNormal > normal
        ? fitting(of(transformed, transform), transformedNormal)
        : fitting(plain, normal);
  }

  static Shape of(double[] transformed, @Nullable PowerTransform transform) {
    return new Shape(
        transformed.length,
        StatUtils.mean(transformed),
        Math.sqrt(StatUtils.variance(transformed)),
        transform);
  }

  private static Shape fitting(Shape shape, double pValue) {
    boolean ends = Double.isFinite(shape.percentile(SCORE) - shape.percentile(-SCORE));
    if (!(pValue >= IMPOSSIBLE && ends)) {
      throw new IllegalArgumentException(
          ("The results are neither normal nor made so by a Box-Cox transform (Anderson-Darling,"
                  + " p = %s at best), so that capability would mislead. Look for two products or"
                  + " levels among them, or for a coarse reading step, and choose a period without.")
              .formatted(Rounding.of(pValue)));
    }
    return shape;
  }

  /** X0.135. */
  public double lowPercentile() {
    return percentile(-SCORE);
  }

  /** X50. */
  public double median() {
    return percentile(0);
  }

  /** X99.865. */
  public double highPercentile() {
    return percentile(SCORE);
  }

  /**
   * The density at a result: that of the unit normal distribution at its score, times the slope of
   * the score, T'(x)/s with T'(x) = x^(lambda - 1), or 1/s without a transform.
   *
   * @param x in the unit of the results
   * @return 0 where the transform has no place for x
   */
  public double density(double x) {
    if (transform != null && !(x > 0)) {
      return 0;
    }
    double score = ((transform == null ? x : transform.apply(x)) - centre) / spread;
    double slope = transform == null ? 1 : Math.pow(x, transform.lambda() - 1);
    return new NormalDistribution().density(score) * slope / spread;
  }

  private double percentile(double score) {
    double y = centre + score * spread;
    return transform == null ? y : transform.inverse(y);
  }

  /** How many half spreads lie between the median and a limit: Cpu or Cpl. */
  double index(double limit, Tail tail) {
    return (limit - median()) / (percentile(tail.sign() * SCORE) - median());
  }

  /**
   * What the true index is not below. For the normal distribution the bound is exact: the c under
   * which 3 √n times the estimate, a noncentral t with n - 1 degrees of freedom and noncentrality 3
   * √n c, is not exceeded with that confidence (D. B. Owen, Technometrics 10 (1968) 445,
   * doi:10.1080/00401706.1968.10490590). On transformed results it is {@link #bissell}.
   *
   * @param index the estimate
   * @param confidence from 0.5 to 0.999
   */
  double lowerBound(double index, Tail tail, double confidence) {
    if (transform != null) {
      return bissell(index, tail, confidence);
    }
    double factor = SCORE * Math.sqrt(n);
    return new NoncentralT(n - 1.0).noncentrality(factor * index, confidence) / factor;
  }

  /**
   * An approximate lower bound, the estimate less its standard error times the normal quantile. The
   * variance is [((a + c (b - a))/D)²/n + (3 c b/D)²/(2(n-1))] s², with c the index, D the half
   * spread, and a and b the slopes of T⁻¹ at the median and at the percentile; the power is taken
   * as known. Without a transform a = b = 1 and D = 3 s, which gives 1/(9n) + c²/(2(n-1)). Source:
   * A. F. Bissell, How reliable is your capability index?, Applied Statistics 39 (1990) 331,
   * doi:10.2307/2347383; carried through the percentiles by propagation of errors.
   *
   * @param index the estimate
   * @param confidence from 0.5 to 0.999
   */
  double bissell(double index, Tail tail, double confidence) {
    double a = slope(0);
    double b = slope(tail.sign() * SCORE);
    double half = Math.abs(percentile(tail.sign() * SCORE) - median());
    double byCentre = (a + index * (b - a)) * spread / half;
    double bySpread = SCORE * index * b * spread / half;
    double variance = byCentre * byCentre / n + bySpread * bySpread / (2.0 * (n - 1));
    double quantile = new NormalDistribution().inverseCumulativeProbability(confidence);
    return index - quantile * Math.sqrt(variance);
  }

  /** dT⁻¹/dy = x^(1 - lambda) at a score. */
  private double slope(double score) {
    return transform == null ? 1 : Math.pow(percentile(score), 1 - transform.lambda());
  }
}
