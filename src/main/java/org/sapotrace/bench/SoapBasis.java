package org.sapotrace.bench;

import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.SampleDensity;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.MolarMass;

/**
 * What a soap titration is computed with, beside its readings.
 *
 * @param expressedAs molar mass of the soap that the figure is expressed as
 * @param alkali whose soap that is; null where only the molar mass is known
 * @param density of the sample
 * @param densityCaution what to say where the density is a default; null where it was given
 * @param requirement what the figure must meet; null for nothing
 */
public record SoapBasis(
    MolarMass expressedAs,
    @Nullable Alkali alkali,
    SampleDensity density,
    @Nullable String densityCaution,
    @Nullable Requirement requirement) {

  /**
   * The basis of a calculation that belongs to no line.
   *
   * @param alkali whose soap the figure is expressed as; null where a molar mass is given instead
   * @param molarMass of the soap; null for the alkali's oleate
   * @param density15KgPerM3 density at 15 °C in kg/m³; null for the default
   * @param density15StandardUncertainty of it; null for none
   * @param limits what the figure must meet; null for what fuel of that alkali must meet
   */
  public static SoapBasis ofCalculation(
      @Nullable Alkali alkali,
      @Nullable MolarMass molarMass,
      @Nullable Double density15KgPerM3,
      @Nullable Double density15StandardUncertainty,
      @Nullable Specification limits) {
    if ((alkali == null) == (molarMass == null)) {
      throw new IllegalArgumentException("Give the alkali or the molar mass of its soap.");
    }
    KnownDensity density = KnownDensity.of(density15KgPerM3, density15StandardUncertainty);
    Specification judged =
        limits == null && alkali != null ? Specification.soapDefault(alkali) : limits;
    return new SoapBasis(
        alkali == null ? Objects.requireNonNull(molarMass) : alkali.soapMolarMass(),
        alkali,
        density.density(),
        density.caution(),
        judged == null ? null : new Requirement(SamplingPoint.OTHER, judged, Figure.MG_PER_KG));
  }

  /** The density that a line states, or the default. */
  record KnownDensity(SampleDensity density, @Nullable String caution) {

    static KnownDensity of(@Nullable Double at15KgPerM3, @Nullable Double standardUncertainty) {
      if (at15KgPerM3 == null) {
        return new KnownDensity(
            SampleDensity.assumedFuel(),
            "No density is known for this product: 880 ± 10 kg/m3 at 15 °C was taken.");
      }
      Density density = new Density(at15KgPerM3);
      return standardUncertainty == null
          ? new KnownDensity(
              SampleDensity.fuel(Measured.exactly(density)),
              "No uncertainty of the density is known: it was taken as exact.")
          : new KnownDensity(SampleDensity.fuel(Measured.of(density, standardUncertainty)), null);
    }

    static KnownDensity methanol() {
      return new KnownDensity(
          SampleDensity.methanol(), "The sample was taken as methanol: 0.7914 g/mL at 20 °C.");
    }
  }
}
