package org.sapotrace.chemistry;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.stat.StatUtils;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;

/**
 * One reported figure from one or more replicate titrations.
 *
 * @param value the figure; keeps its sign
 * @param replicates what each titration gives by itself, in the order titrated
 * @param budget the uncertainty of the value, in its unit
 * @param shrinkingVariance the part of the budget's variance that is independent between
 *     replicates, and so falls as 1/n; from 0 to the whole
 * @param detection from where on it can be told from a blank; null where blanks were not titrated
 *     often enough to know
 */
public record Determination(
    double value,
    List<Double> replicates,
    Budget budget,
    double shrinkingVariance,
    @Nullable Detection detection) {

  /** Refuses what no titration can give with {@link IllegalArgumentException}. */
  public Determination {
    replicates = List.copyOf(replicates);
    double variance = variance(budget);
    // The whole may be exceeded by a rounding error where everything shrinks.
    boolean isPart = shrinkingVariance >= 0 && shrinkingVariance <= variance * (1 + 1e-9);
    if (!Double.isFinite(value) || replicates.isEmpty() || !isPart) {
      throw new IllegalArgumentException(
          "A determination needs a finite value, at least one replicate, and a part of its variance.");
    }
  }

  /** A determination of which no limit of detection is known. */
  public Determination(
      double value, List<Double> replicates, Budget budget, double shrinkingVariance) {
    this(value, replicates, budget, shrinkingVariance, null);
  }

  /** The same replicates, reported by another value such as their median. */
  public Determination reportedAs(double reported) {
    return new Determination(reported, replicates, budget, shrinkingVariance, detection);
  }

  /**
   * The determination by replicates that scatter more than the budget says. What s / sqrt(n) (JCGM
   * 100:2008, 4.2.3) is beyond what the budget lets each replicate err by is a source of its own,
   * with n - 1 degrees of freedom.
   *
   * @throws IllegalArgumentException for fewer than 2 replicates
   */
  public Determination scattering() {
    int n = replicates.size();
    if (n < 2) {
      throw new IllegalArgumentException("A single replicate shows no scatter.");
    }
    double[] values = replicates.stream().mapToDouble(Double::doubleValue).toArray();
    double beyond = StatUtils.variance(values) / n - shrinkingVariance;
    if (!(beyond > 0)) {
      return this;
    }
    List<Contribution> all = new ArrayList<>(budget.contributions());
    all.add(new Contribution(ErrorSource.DISAGREEMENT.words(), Math.sqrt(beyond), n - 1.0));
    return new Determination(
        value, replicates, new Budget(all), shrinkingVariance + beyond, detection);
  }

  /** Whether that is so. */
  public boolean isScattering() {
    return budget.contributions().stream()
        .anyMatch(each -> each.source().equals(ErrorSource.DISAGREEMENT.words()));
  }

  /**
   * Whether nothing was found: it lies under the limit of detection, or, where none is known, no
   * titrant was used beyond the blank.
   */
  public boolean isBelowDetection() {
    return detection == null ? value <= 0 : value < detection.limit();
  }

  /** Whether something was found, and too little to say how much. */
  public boolean isBelowQuantification() {
    return detection != null && !isBelowDetection() && value < detection.quantification();
  }

  /**
   * The standard uncertainty to expect of the mean with more titrations: u^2 = u_fixed^2 +
   * u_shrinking^2 n / (n + k).
   *
   * @param further k, at least 0
   */
  public double standardUncertaintyWithFurther(int further) {
    double n = replicates.size();
    double fixed = Math.max(0, variance(budget) - shrinkingVariance);
    return Math.sqrt(fixed + shrinkingVariance * n / (n + further));
  }

  private static double variance(Budget budget) {
    return budget.standardUncertainty() * budget.standardUncertainty();
  }
}
