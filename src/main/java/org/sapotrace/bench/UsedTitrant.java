package org.sapotrace.bench;

import org.sapotrace.chemistry.Reagent;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.refusal.Refusal;

/**
 * What a titration counts with that was titrated with a lot on record.
 *
 * @param lot the slug of the lot
 * @param normality in mol/L
 * @param standardUncertainty of it in mol/L
 * @param interpolated whether it was found between standardisations, as a restatement does
 */
public record UsedTitrant(
    String lot, double normality, double standardUncertainty, boolean interpolated) {

  static UsedTitrant of(LotStrength strength) {
    Measured<Normality> normality = strength.normality();
    return new UsedTitrant(
        strength.lot(),
        normality.quantity().molesPerLitre(),
        normality.standardUncertainty(),
        strength.isInterpolated());
  }

  /** Refuses a lot that does not react with what is to be found. */
  static void checkTitrates(Analyte analyte, LotStrength strength) {
    Reagent reagent = strength.reagent();
    if (reagent.isAcid() == analyte.takesAcid()) {
      return;
    }
    throw Refusal.impossible(
        "#/titrant/lot",
        "Lot %s is %s, and %s is titrated with an %s: check the lot."
            .formatted(
                strength.lot(),
                reagent.id().replace('-', ' '),
                analyte.measurand().label(),
                analyte.takesAcid() ? "acid" : "alkali"));
  }
}
