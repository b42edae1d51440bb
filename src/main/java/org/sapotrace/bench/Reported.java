package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Advice;
import org.sapotrace.chemistry.Calculation;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.Repeatability;
import org.sapotrace.chemistry.ReplicateAgreement;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.measure.Budget;
import org.sapotrace.measure.Contribution;
import org.sapotrace.measure.MonteCarlo;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/**
 * A determination as it is reported: by the mean of its replicates, or by their median where
 * further titrations did not agree either.
 *
 * @param determination with the value that is reported
 * @param agreement of the replicates; null where there is only one
 * @param distribution of the mean, where it is reported; null where variances are propagated
 * @param check the distribution of the mean where only the budget is checked by it; null where
 *     there is nothing to check
 * @param unit of the value in UCUM code
 * @param pooled by what the replicates were compared; null for the budget
 */
record Reported(
    Determination determination,
    @Nullable ReplicateAgreement agreement,
    @Nullable MonteCarlo distribution,
    @Nullable MonteCarlo check,
    String unit,
    Repeatability.@Nullable Pooled pooled) {

  /**
   * The report of a calculation, its replicates compared by its own budget.
   *
   * @param propagation null for variances
   */
  static Reported of(Calculation calculation, @Nullable Propagation propagation, String unit) {
    return of(calculation, propagation, unit, null);
  }

  /**
   * The report of a calculation.
   *
   * @param propagation null for variances
   * @param pooled by what replicates are compared; null for the calculation's own budget
   */
  static Reported of(
      Calculation calculation,
      @Nullable Propagation propagation,
      String unit,
      Repeatability.@Nullable Pooled pooled) {
    Determination found = Refusal.at("#/replicates", calculation::determine);
    MonteCarlo distribution = Propagation.apply(propagation, calculation);
    MonteCarlo check = distribution == null ? Propagation.check(calculation) : null;
    if (found.replicates().size() < 2) {
      return new Reported(found, null, distribution, check, unit, pooled);
    }
    ReplicateAgreement agreement =
        pooled == null
            ? ReplicateAgreement.of(found)
            : ReplicateAgreement.of(found, pooled.repeatability());
    Determination reported = found.reportedAs(agreement.value());
    Determination scattering = isDisagreement(agreement) ? reported.scattering() : reported;
    return scattering.equals(reported)
        ? new Reported(reported, agreement, distribution, check, unit, pooled)
        // Distributions know nothing of what else made the replicates differ.
        : new Reported(scattering, agreement, null, null, unit, pooled);
  }

  private static boolean isDisagreement(@Nullable ReplicateAgreement agreement) {
    return agreement != null && agreement.range() > agreement.criticalRange();
  }

  /** By the distribution where there is one, by the budget otherwise. */
  double standardUncertainty() {
    return distribution == null
        ? determination.budget().standardUncertainty()
        : distribution.standardUncertainty();
  }

  /** Half the 95 % interval of the distribution where there is one, by the budget otherwise. */
  double expandedUncertainty() {
    return distribution == null
        ? determination.budget().expandedUncertainty()
        : (distribution.upper() - distribution.lower()) / 2;
  }

  /** The verdict, which stays open while replicates disagree; null where nothing is required. */
  @Nullable Verdict judge(@Nullable Requirement requirement) {
    if (requirement == null) {
      return null;
    }
    Verdict verdict = requirement.judge(asSure());
    // A median is reported where further titrations did not agree either. As long as nobody knows
    // why they differ nothing is released on it.
    if (agreement == null || !isDisagreement(agreement)) {
      return verdict;
    }
    return new Verdict(
        Verdict.Outcome.INCONCLUSIVE,
        verdict.probabilityConforming(),
        verdict.limit(),
        Advice.RETEST,
        agreement.accepted()
            ? "The titrations still differ by more than is to be expected, so look for the cause and test the sample again."
            : disagreement(agreement) + " and correct the result with all of them.",
        agreement.accepted() ? null : (Integer) agreement.needed());
  }

  /** The determination with a budget that comes to the expanded uncertainty that is reported. */
  private Determination asSure() {
    Budget budget = determination.budget();
    if (distribution == null || budget.expandedUncertainty() == 0) {
      return determination;
    }
    double factor = expandedUncertainty() / budget.expandedUncertainty();
    return new Determination(
        determination.value(),
        determination.replicates(),
        new Budget(
            budget.contributions().stream()
                .map(
                    each ->
                        new Contribution(
                            each.source(),
                            factor * each.standardUncertainty(),
                            each.degreesOfFreedom()))
                .toList()),
        factor * factor * determination.shrinkingVariance(),
        determination.detection());
  }

  /** What to say of replicates that disagree, and of a budget not to be relied on. */
  List<String> cautions() {
    List<String> cautions = new ArrayList<>();
    if (agreement != null && pooled != null && !pooled.leftOut().isEmpty()) {
      int leftOut = pooled.leftOut().size();
      cautions.add(
          "Of the stream's latest %d sets of replicates, %d %s out by Cochran's test beyond 1 %% and %s not count towards its repeatability: look for the cause by the stream's precision."
              .formatted(
                  pooled.sets() + leftOut,
                  leftOut,
                  leftOut == 1 ? "stands" : "stand",
                  leftOut == 1 ? "does" : "do"));
    }
    if (agreement != null && !agreement.accepted()) {
      cautions.add(disagreement(agreement) + ".");
    }
    if (agreement != null && agreement.branch().startsWith("median")) {
      cautions.add(
          "The replicates disagree although more were titrated: their %s is reported, with the uncertainty of their mean."
              .formatted(agreement.branch()));
    }
    if (determination.isScattering()) {
      cautions.add(
          "What the replicates scatter by counts as a source of uncertainty beside the budget, and variances are propagated.");
    }
    MonteCarlo drawn = distribution == null ? check : distribution;
    if (drawn != null) {
      drawn.caution(mean(), determination.budget()).ifPresent(cautions::add);
    }
    if (distribution != null && !distribution.isStable()) {
      cautions.add(
          "The distribution had not settled after %d trials.".formatted(distribution.trials()));
    }
    return cautions;
  }

  /** By which repeatability the replicates were compared. */
  Figure.ComparedBy comparedBy(ReplicateAgreement found) {
    double repeatability = found.repeatability();
    if (pooled == null) {
      return new Figure.ComparedBy(repeatability, Figure.Origin.BUDGET, null);
    }
    boolean isOwn = pooled.repeatability().at(mean()) == repeatability;
    return new Figure.ComparedBy(
        repeatability, isOwn ? Figure.Origin.STREAM : Figure.Origin.READING, pooled.sets());
  }

  private double mean() {
    return determination.replicates().stream().mapToDouble(each -> each).average().orElseThrow();
  }

  private String disagreement(ReplicateAgreement found) {
    return "The titrations differ by %s %s where %s %s is the most to expect, so titrate %s"
        .formatted(
            Rounding.of(found.range()),
            unit,
            Rounding.of(found.criticalRange()),
            unit,
            found.needed() == 1 ? "once more" : found.needed() + " more times");
  }
}
