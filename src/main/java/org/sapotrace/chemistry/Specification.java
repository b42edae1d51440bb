package org.sapotrace.chemistry;

import java.util.Objects;
import org.hipparchus.distribution.RealDistribution;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;
import org.jspecify.annotations.Nullable;

/**
 * What a product must meet; both limits belong to what is allowed.
 *
 * @param lower the lower limit; null for none
 * @param upper the upper limit, above the lower one; null for none
 */
public record Specification(@Nullable Double lower, @Nullable Double upper) {

  // ASTM D6751 and EN 14214 limit sodium and potassium together to this (from memory). Neither
  // limits soap.
  private static final double METAL_LIMIT_MG_PER_KG = 5;

  // From here on Student's t is the normal distribution to five digits.
  private static final double MANY = 1e5;

  private static final NormalDistribution STANDARD_NORMAL = new NormalDistribution();

  /** Refuses limits that nothing or everything meets with {@link IllegalArgumentException}. */
  public Specification {
    boolean isFinite =
        (lower == null || Double.isFinite(lower)) && (upper == null || Double.isFinite(upper));
    if (!isFinite || (lower == null && upper == null)) {
      throw new IllegalArgumentException(
          "A specification needs a lower or an upper limit, each of them a number.");
    }
    if (lower != null && upper != null && !(lower < upper)) {
      throw new IllegalArgumentException(
          "The lower specification limit must be below the upper one.");
    }
  }

  /**
   * The soap, expressed as the oleate of the alkali, that holds 5 mg/kg of its metal: at most 66.2
   * mg/kg for sodium, 41.0 mg/kg for potassium.
   */
  public static Specification soapDefault(Alkali alkali) {
    return new Specification(null, MetalEquivalent.soap(alkali, METAL_LIMIT_MG_PER_KG));
  }

  /** Whether the upper limit is, to within 0.5 %, {@link #soapDefault} of that alkali. */
  public boolean isSoapDefaultOf(Alkali alkali) {
    double soap = MetalEquivalent.soap(alkali, METAL_LIMIT_MG_PER_KG);
    return upper != null && Math.abs(upper - soap) <= 0.005 * soap;
  }

  /** Whether a value is above the upper limit. */
  public boolean isExceededBy(double value) {
    return upper != null && value > upper;
  }

  /** Whether a value is below the lower limit. */
  public boolean isUndercutBy(double value) {
    return lower != null && value < lower;
  }

  /** Whether a value lies within the limits. */
  public boolean allows(double value) {
    return !isExceededBy(value) && !isUndercutBy(value);
  }

  /** Whether the upper limit decides about a value: where there are two, the nearer one does. */
  public boolean isDecidedByUpper(double value) {
    return upper != null && (lower == null || upper - value <= value - lower);
  }

  /** The limit that decides about a value. */
  public double decidingLimit(double value) {
    return upper != null && isDecidedByUpper(value) ? upper : Objects.requireNonNull(lower);
  }

  /**
   * The probability that the true value lies within the limits, for a normal distribution about the
   * result: p = 1 - Phi((lower - y) / u) - Phi((y - upper) / u). JCGM 106:2012, clause 7.
   *
   * @param value y, finite
   * @param standardUncertainty u, finite and at least 0; with 0 the probability is 0 or 1
   */
  public double probabilityMet(double value, double standardUncertainty) {
    return probabilityMet(value, standardUncertainty, STANDARD_NORMAL);
  }

  /**
   * The same where u was found from few observations: with Student's t for its degrees of freedom
   * in the place of the normal distribution (JCGM 100:2008, G.3), so that a chance is not taken for
   * larger than it is.
   *
   * @param degreesOfFreedom of u, more than 0; infinite for the normal distribution
   */
  public double probabilityMet(double value, double standardUncertainty, double degreesOfFreedom) {
    return probabilityMet(
        value,
        standardUncertainty,
        degreesOfFreedom < MANY ? new TDistribution(degreesOfFreedom) : STANDARD_NORMAL);
  }

  private double probabilityMet(double value, double u, RealDistribution distribution) {
    if (u == 0) {
      return allows(value) ? 1 : 0;
    }
    double below = lower == null ? 0 : distribution.cumulativeProbability((lower - value) / u);
    double above = upper == null ? 0 : distribution.cumulativeProbability((value - upper) / u);
    return Math.max(0, 1 - below - above);
  }
}
