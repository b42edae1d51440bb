package org.sapotrace.bench;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.MetalEquivalent;
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
 * @param effectiveDegreesOfFreedom of the standard uncertainty; null where unknown, and where they
 *     are infinite because no part of it was found from repeated observations
 * @param replicates what each replicate comes to
 * @param budget the sources of uncertainty, largest first; empty where unknown
 * @param metalEquivalent the metal that this soap carries; null for what is not soap of one metal
 */
public record Figure(
    double value,
    String unit,
    @Nullable Double standardUncertainty,
    @Nullable Double expandedUncertainty,
    @Nullable Double coverageFactor,
    @Nullable Double effectiveDegreesOfFreedom,
    List<Double> replicates,
    List<Source> budget,
    @Nullable Metal metalEquivalent) {

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

  static Figure of(Determination determination, @Nullable Alkali alkali) {
    Budget budget = determination.budget();
    double degreesOfFreedom = budget.effectiveDegreesOfFreedom();
    return new Figure(
        determination.value(),
        MG_PER_KG,
        budget.standardUncertainty(),
        budget.expandedUncertainty(),
        budget.coverageFactor(),
        Double.isFinite(degreesOfFreedom) ? degreesOfFreedom : null,
        determination.replicates(),
        budget.contributions().stream()
            .map(c -> new Source(c.source(), c.standardUncertainty(), budget.share(c)))
            .toList(),
        alkali == null ? null : Metal.in(determination.value(), alkali));
  }
}
