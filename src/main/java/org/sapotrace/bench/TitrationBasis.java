package org.sapotrace.bench;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.BlankSeries;
import org.sapotrace.chemistry.Repeatability;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.SampleDensity;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.measure.Density;
import org.sapotrace.measure.Measured;

/**
 * What a titration is computed with, beside its readings.
 *
 * @param analyte what it finds
 * @param density of the sample
 * @param densityCaution what to say where the density is a default; null where it was given
 * @param requirement what the figure must meet; null for nothing
 * @param blanks that are known beside what was read; null where none are
 * @param pooled how far titrations of the stream have scattered; null where too few sets of
 *     replicates tell, and for what belongs to no stream
 * @param samplingPoint where the sample was taken
 * @param normalityBefore as in {@link Background}
 */
public record TitrationBasis(
    Analyte analyte,
    SampleDensity density,
    @Nullable String densityCaution,
    @Nullable Requirement requirement,
    @Nullable BlankSeries blanks,
    Repeatability.@Nullable Pooled pooled,
    SamplingPoint samplingPoint,
    @Nullable Double normalityBefore) {

  /** How far titrations like this one scatter; null where it is not known. */
  @Nullable Repeatability repeatability() {
    return pooled == null ? null : pooled.repeatability();
  }

  /**
   * The basis of a calculation that belongs to no line.
   *
   * @param density15KgPerM3 density at 15 °C in kg/m³; null for the default
   * @param density15StandardUncertainty of it; null for none
   * @param limits what the figure must meet; null for what fuel of a soap's alkali must meet, and
   *     for nothing where it is no soap of an alkali
   */
  public static TitrationBasis ofCalculation(
      Analyte analyte,
      @Nullable Double density15KgPerM3,
      @Nullable Double density15StandardUncertainty,
      @Nullable Specification limits) {
    KnownDensity density = KnownDensity.of(density15KgPerM3, density15StandardUncertainty);
    Alkali metal = analyte.metal();
    Specification judged =
        limits == null && metal != null ? Specification.soapDefault(metal) : limits;
    return new TitrationBasis(
        analyte,
        density.density(),
        density.caution(),
        judged == null ? null : new Requirement(SamplingPoint.OTHER, judged, analyte.unit()),
        null,
        null,
        SamplingPoint.OTHER,
        null);
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
