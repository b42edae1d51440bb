package org.sapotrace.measure;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.Comparator;
import java.util.List;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * The uncertainty budget of a result: what each source adds, and what they come to together.
 *
 * <p>The contributions are independent of each other; what is correlated has been added up into one
 * contribution before. A budget whose contributions are all zero says that the result is taken as
 * exact: its uncertainties are 0, its degrees of freedom infinite and every share 0.
 *
 * @param contributions at least one; kept with the largest first
 */
public record Budget(List<Contribution> contributions) {

  private static final MathContext NINE_DIGITS = new MathContext(9);
  private static final double COVERAGE = 0.95;

  private static final double NORMAL_QUANTILE =
      new NormalDistribution().inverseCumulativeProbability((1 + COVERAGE) / 2);

  // From here on the incomplete beta function behind t loses digits.
  private static final double MANY = 1e5;

  /** Refuses a budget that is empty or not finite with {@link IllegalArgumentException}. */
  public Budget {
    if (contributions.isEmpty()) {
      throw new IllegalArgumentException("An uncertainty budget needs at least one contribution.");
    }
    contributions =
        contributions.stream().sorted(Comparator.comparing(Budget::nineDigits).reversed()).toList();
    if (!Double.isFinite(standardUncertainty(contributions))) {
      throw new IllegalArgumentException(
          "The uncertainties are too large to be combined: check them and their units.");
    }
  }

  /** Rounding errors do not decide about the order of equal contributions, which stay as given. */
  private static BigDecimal nineDigits(Contribution contribution) {
    return new BigDecimal(contribution.standardUncertainty()).round(NINE_DIGITS);
  }

  /** The combined standard uncertainty u = sqrt(sum u_i^2): JCGM 100:2008, 5.1.2. */
  public double standardUncertainty() {
    return standardUncertainty(contributions);
  }

  private static double standardUncertainty(List<Contribution> contributions) {
    return Math.sqrt(
        contributions.stream()
            .mapToDouble(each -> each.standardUncertainty() * each.standardUncertainty())
            .sum());
  }

  /**
   * The effective degrees of freedom by Welch-Satterthwaite, nu = u^4 / sum(u_i^4 / nu_i): JCGM
   * 100:2008, G.4.1. Not truncated to a whole number; infinite if every contribution that counts
   * has infinitely many.
   */
  public double effectiveDegreesOfFreedom() {
    return 1
        / contributions.stream()
            .mapToDouble(each -> share(each) * share(each) / each.degreesOfFreedom())
            .sum();
  }

  /**
   * The factor k for a coverage of 95 %: the two-sided quantile of Student's t for the effective
   * degrees of freedom nu, JCGM 100:2008, G.3. Where nu is large, its expansion z + (z^3 + z) / (4
   * nu) about the normal quantile z = 1.960 (Abramowitz and Stegun, 26.7.5).
   */
  public double coverageFactor() {
    double nu = effectiveDegreesOfFreedom();
    if (nu < MANY) {
      return new TDistribution(nu).inverseCumulativeProbability((1 + COVERAGE) / 2);
    }
    double z = NORMAL_QUANTILE;
    return z + (z * z * z + z) / (4 * nu);
  }

  /** The expanded uncertainty U = k u, for a coverage of 95 %. */
  public double expandedUncertainty() {
    return coverageFactor() * standardUncertainty();
  }

  /** The part of the variance that a contribution makes up, from 0 to 1. */
  public double share(Contribution contribution) {
    double total = standardUncertainty();
    if (total == 0) {
      return 0;
    }
    double ratio = contribution.standardUncertainty() / total;
    return ratio * ratio;
  }
}
