package org.sapotrace.chemistry;

import org.sapotrace.measure.Density;
import org.sapotrace.measure.Rounding;

/**
 * The alkali that makes a litre of oil into fuel: what catalyses, and what its free fatty acid uses
 * up.
 *
 * @param alkali which hydroxide, NaOH or KOH: the same oil needs 1.4027 times as much KOH by mass
 *     to neutralise it
 * @param gramsPerLitre of the hydroxide as it comes out of its container, in g per litre of oil
 */
public record CatalystDemand(Alkali alkali, double gramsPerLitre) {

  /**
   * (b + AN rho M / (1000 M_KOH)) / w in g/L, with the base dose b in g/L, the acid number AN in mg
   * KOH/g, the oil's density rho in kg/m3, the molar mass M of the hydroxide and its assay w. An
   * acid number below zero counts as none.
   *
   * @param baseDose b, of pure hydroxide, in g/L, from 0 to 100, both included
   * @param acidNumber AN, in mg KOH/g, at most 1220
   * @param assay w, the mass fraction of hydroxide in what is weighed out, more than 0 and at most
   *     1
   * @throws IllegalArgumentException for what is outside its range
   */
  public static CatalystDemand of(
      Alkali alkali, double baseDose, double acidNumber, Density oil, double assay) {
    if (!(baseDose >= 0 && baseDose <= 100)) {
      throw new IllegalArgumentException(
          "The base dose is %s g/L; it must be from 0 to 100 g/L."
              .formatted(Rounding.of(baseDose)));
    }
    if (!(assay > 0 && assay <= 1)) {
      throw new IllegalArgumentException(
          "The assay is %s; it must be more than 0 and at most 1, as 0.85 for 85 %%."
              .formatted(Rounding.of(assay)));
    }
    if (!(acidNumber <= 1220)) {
      throw new IllegalArgumentException(
          "The acid number is %s mg/g; no oil has more than 1220 mg/g."
              .formatted(Rounding.of(acidNumber)));
    }
    double neutralised =
        Math.max(0, acidNumber)
            * oil.kilogramsPerCubicMetre()
            / 1000
            * alkali.hydroxideMolarMass().gramsPerMole()
            / Alkali.POTASSIUM.hydroxideMolarMass().gramsPerMole();
    return new CatalystDemand(alkali, (baseDose + neutralised) / assay);
  }

  /**
   * The acid number of as much free fatty acid: AN = FFA 56.105 / 28.2, about 1.99 FFA, as both
   * stand for the same titrant (AOCS Ca 5a-40, from memory).
   *
   * @param freeFattyAcid FFA in % as oleic acid
   * @return AN in mg KOH/g
   */
  public static double acidNumber(double freeFattyAcid) {
    return freeFattyAcid
        * Alkali.POTASSIUM.hydroxideMolarMass().gramsPerMole()
        / SampleTitration.OLEIC_ACID_PER_CENT;
  }

  /** What whoever weighs it out has to mind. */
  public String handling() {
    return "%s burns skin and blinds eyes, and heats methanol when it dissolves: protect both, and follow the supplier's safety data sheet and local codes"
        .formatted(alkali.hydroxideFormula());
  }

  /** The demand in words, which always name the alkali. */
  public String inWords() {
    return "%s g of %s per litre of oil"
        .formatted(Rounding.of(gramsPerLitre), alkali.hydroxideFormula());
  }
}
