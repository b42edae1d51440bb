package org.sapotrace.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.TestPortion.MeasuredOut;
import org.sapotrace.chemistry.TestPortion.Weighed;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;

/**
 * Soap by titration with acid to a single end point.
 *
 * <p>soap = (V - V0) c M 1000 / m in mg/kg, with the titrant V and the blank V0 in mL, the
 * normality c in mol/L, the molar mass M of what soap is expressed as in g/mol and the test portion
 * m in g. Everything titratable is found, the soaps of calcium and magnesium and any free alkali
 * with it.
 *
 * @param replicates one or more titrations of the same sample
 * @param blank V0, what solvent and indicator alone consume; null where none was titrated, which
 *     counts as 0 mL
 * @param titrant c with its uncertainty
 * @param expressedAs M
 * @param glassware what sample and blank were titrated from
 * @param density of the sample, for portions measured out by volume
 * @param balance for portions that were weighed
 */
public record SoapTitration(
    List<Replicate> replicates,
    @Nullable Volume blank,
    Measured<Normality> titrant,
    MolarMass expressedAs,
    Glassware glassware,
    SampleDensity density,
    Balance balance) {

  private static final double WHOLE_SAMPLE = 1e6;

  /**
   * Refuses with {@link IllegalArgumentException} a titration without replicates, from a measuring
   * cylinder, or that finds more soap than sample.
   */
  public SoapTitration {
    replicates = List.copyOf(replicates);
    if (replicates.isEmpty()) {
      throw new IllegalArgumentException("Give at least one titration.");
    }
    if (!glassware.kind().deliversTitrant()) {
      throw new IllegalArgumentException(
          "%s cannot deliver titrant; name a burette or a measuring pipette."
              .formatted(glassware.slug()));
    }
  }

  /** The mean over the replicates with its budget. */
  public Determination determine() {
    ReplicateBudget<Replicate> budget = new ReplicateBudget<>(replicates);
    budget.addIndependent("titrant reading", each -> perMl(each) * glassware.readingMl());
    budget.addIndependent("end point", each -> perMl(each) * glassware.endPointMl());
    // Once and not twice: blank and sample are read on the same scale, so what counts is the error
    // of the net volume.
    budget.addCommon("glassware tolerance", each -> perMl(each) * glassware.calibrationMl());
    if (blank != null) {
      budget.addCommon("blank reading", each -> perMl(each) * glassware.readingMl());
      budget.addCommon("blank end point", each -> perMl(each) * glassware.endPointMl());
    }
    budget.addCommon(
        "titrant normality",
        titrant.degreesOfFreedom(),
        each -> soap(each) / normality() * titrant.standardUncertainty());
    addPortions(budget);
    return budget.determine(this::soap);
  }

  private void addPortions(ReplicateBudget<Replicate> budget) {
    if (replicates.stream().anyMatch(each -> each.portion() instanceof Weighed)) {
      budget.addIndependent("sample mass", this::weighingEffect);
    }
    if (replicates.stream().anyMatch(each -> each.portion() instanceof MeasuredOut)) {
      Measured<Density> known = density.atReference();
      budget.addCommon("sample density", known.degreesOfFreedom(), this::densityEffect);
      budget.addCommon("sample volume", this::volumeEffect);
    }
  }

  private double soap(Replicate replicate) {
    double soap = (replicate.titrant().millilitres() - blankMl()) * perMl(replicate);
    if (Math.abs(soap) <= WHOLE_SAMPLE) {
      return soap;
    }
    throw new IllegalArgumentException(
        "The titration comes to %s mg/kg, more than the sample itself: check volume, normality and sample."
            .formatted(Rounding.of(soap)));
  }

  /** What one mL of titrant stands for: c M 1000 / m, in mg/kg per mL. */
  private double perMl(Replicate replicate) {
    return normality() * expressedAs.gramsPerMole() * 1000 / mass(replicate);
  }

  // The result goes as 1/m and m = V rho, so the relative uncertainties of m, V and rho carry over.

  private double weighingEffect(Replicate replicate) {
    return replicate.portion() instanceof Weighed
        ? soap(replicate) * balance.standardUncertaintyG() / mass(replicate)
        : 0;
  }

  private double densityEffect(Replicate replicate) {
    return replicate.portion() instanceof MeasuredOut portion
        ? soap(replicate)
            * density.atReference().standardUncertainty()
            / density.at(portion.temperature()).kilogramsPerCubicMetre()
        : 0;
  }

  private double volumeEffect(Replicate replicate) {
    return replicate.portion() instanceof MeasuredOut portion
        ? soap(replicate) * portion.cylinder().calibrationMl() / portion.volume().millilitres()
        : 0;
  }

  private double mass(Replicate replicate) {
    return replicate.portion().mass(density).grams();
  }

  private double normality() {
    return titrant.quantity().molesPerLitre();
  }

  private double blankMl() {
    return blank == null ? 0 : blank.millilitres();
  }
}
