package org.sapotrace.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Detection;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.MetalEquivalent;
import org.sapotrace.chemistry.ReplicateAgreement;
import org.sapotrace.measure.Budget;

/**
 * A figure with what it is worth.
 *
 * @param value in the unit; keeps its sign
 * @param unit UCUM code
 * @param standardUncertainty in the unit; null where unknown
 * @param expandedUncertainty in the unit, for a coverage of 95 % unless it was given; null where
 *     unknown
 * @param coverageFactor expanded over standard uncertainty; null where unknown
 * @param effectiveDegreesOfFreedom of the standard uncertainty; null where unknown, where
 *     distributions were propagated, and where they are infinite because no part of it was found
 *     from repeated observations
 * @param replicates what each replicate comes to
 * @param agreement whether the replicates lie as close together as they should; null where there
 *     are fewer than 2 of them, and in results recorded before it was looked at
 * @param budget the sources of uncertainty, largest first; empty where unknown
 * @param metalEquivalent the metal that this soap carries; null for what is not soap of one metal
 * @param detectionLimit the least that can be told from a blank, in the unit; null where no series
 *     of blanks is known
 * @param quantificationLimit the least that says how much it is, likewise
 */
public record Figure(
    double value,
    String unit,
    @Nullable Double standardUncertainty,
    @Nullable Double expandedUncertainty,
    @Nullable Double coverageFactor,
    @Nullable Double effectiveDegreesOfFreedom,
    List<Double> replicates,
    @Nullable Agreement agreement,
    List<Source> budget,
    @Nullable Metal metalEquivalent,
    @Nullable Double detectionLimit,
    @Nullable Double quantificationLimit) {

  static final String MG_PER_KG = "mg/kg";

  /**
   * One source of uncertainty.
   *
   * @param source in words
   * @param standardUncertainty what it contributes, in the unit of the figure
   * @param share of the variance, from 0 to 1
   */
  public record Source(String source, double standardUncertainty, double share) {}

  /** Metal that soap carries. */
  public record Metal(Alkali metal, double value, String unit) {

    static Metal in(double soapMgPerKg, Alkali alkali) {
      return new Metal(alkali, MetalEquivalent.metal(alkali, soapMgPerKg), MG_PER_KG);
    }
  }

  /**
   * How far replicates agree: ISO 5725-6, 5.2.2.
   *
   * @param range the largest less the least, in the unit of the figure
   * @param criticalRange what the range may be, in the unit of the figure
   * @param accepted whether the figure stands; otherwise it is provisional
   * @param branch what the figure is, such as {@code mean of 2}
   * @param needed how many more titrations are asked for; 0 where the figure stands
   * @param repeatability by what they were compared; null in results recorded before it was told
   */
  public record Agreement(
      double range,
      double criticalRange,
      boolean accepted,
      String branch,
      int needed,
      @Nullable ComparedBy repeatability) {

    static Agreement of(ReplicateAgreement found) {
      return of(found, new ComparedBy(found.repeatability(), Origin.BUDGET, null));
    }

    static Agreement of(ReplicateAgreement found, ComparedBy repeatability) {
      return new Agreement(
          found.range(),
          found.criticalRange(),
          found.accepted(),
          found.branch(),
          found.needed(),
          repeatability);
    }
  }

  /**
   * The repeatability by which replicates were compared.
   *
   * @param standardDeviation s_r at the level of their mean, in the unit of the figure
   * @param source where it comes from
   * @param pairs how many sets of replicates the stream's own is pooled from, pairs or larger; null
   *     for the budget
   */
  public record ComparedBy(double standardDeviation, Origin source, @Nullable Integer pairs) {}

  /** Where a repeatability comes from. */
  public enum Origin {
    /** The parts of the titration's own budget that err anew each time. */
    BUDGET("budget"),
    /** The replicates of the stream on record. */
    STREAM("stream"),
    /** Reading the scale, as the replicates of the stream agree better than it can be read. */
    READING("reading");

    private final String id;

    Origin(String id) {
      this.id = id;
    }

    /** The name in the interface. */
    public String id() {
      return id;
    }
  }

  /**
   * A figure that was computed once.
   *
   * @param budget null where its uncertainty is not known
   */
  static Figure of(double value, String unit, @Nullable Budget budget) {
    return new Figure(
        value,
        unit,
        budget == null ? null : (Double) budget.standardUncertainty(),
        budget == null ? null : (Double) budget.expandedUncertainty(),
        budget == null ? null : (Double) budget.coverageFactor(),
        budget == null ? null : finite(budget.effectiveDegreesOfFreedom()),
        List.of(value),
        null,
        budget == null ? List.of() : sources(budget),
        null,
        null,
        null);
  }

  private static @Nullable Double finite(double degreesOfFreedom) {
    return Double.isFinite(degreesOfFreedom) ? degreesOfFreedom : null;
  }

  private static List<Source> sources(Budget budget) {
    return budget.contributions().stream()
        .map(c -> new Source(c.source(), c.standardUncertainty(), budget.share(c)))
        .toList();
  }

  static Figure of(Reported reported, @Nullable Alkali metal) {
    Determination determination = reported.determination();
    ReplicateAgreement agreement = reported.agreement();
    Detection detection = determination.detection();
    Budget budget = determination.budget();
    double standard = reported.standardUncertainty();
    double expanded = reported.expandedUncertainty();
    boolean isByBudget = reported.distribution() == null;
    return new Figure(
        determination.value(),
        reported.unit(),
        standard,
        expanded,
        isByBudget || standard == 0 ? budget.coverageFactor() : expanded / standard,
        isByBudget ? finite(budget.effectiveDegreesOfFreedom()) : null,
        determination.replicates(),
        agreement == null ? null : Agreement.of(agreement, reported.comparedBy(agreement)),
        sources(budget),
        metal == null ? null : Metal.in(determination.value(), metal),
        detection == null ? null : (Double) detection.limit(),
        detection == null ? null : (Double) detection.quantification());
  }
}
