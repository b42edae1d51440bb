package org.sapotrace.bench;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Calculation;
import org.sapotrace.chemistry.SampleTitration;
import org.sapotrace.chemistry.Solvent;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.productline.Measurand;

/**
 * What a titration of a sample finds, and what it is expressed as.
 *
 * @param measurand what is found
 * @param metal the alkali whose metal the figure stands for; null for what is not soap of one metal
 * @param calculation how the figure comes of the titration
 */
public record Analyte(
    Measurand measurand,
    @Nullable Alkali metal,
    Function<SampleTitration, Calculation> calculation) {

  /** Soap, as the oleate of an alkali. */
  public static Analyte soap(Alkali alkali) {
    return new Analyte(Measurand.SOAP, alkali, each -> each.soap(alkali.soapMolarMass()));
  }

  /** Soap, as whatever has that molar mass. */
  public static Analyte soap(MolarMass expressedAs) {
    return new Analyte(Measurand.SOAP, null, each -> each.soap(expressedAs));
  }

  /** Free alkali, as hydroxide. */
  public static Analyte freeAlkali(Alkali alkali) {
    return new Analyte(Measurand.FREE_ALKALI, null, each -> each.freeAlkali(alkali));
  }

  /** The acid number, as potassium hydroxide. */
  public static Analyte acidNumber() {
    return new Analyte(Measurand.ACID_NUMBER, null, SampleTitration::acidNumber);
  }

  /** Free fatty acid, as oleic acid. */
  public static Analyte freeFattyAcid() {
    return new Analyte(Measurand.FREE_FATTY_ACID, null, SampleTitration::freeFattyAcid);
  }

  /** Whether a blank is taken off: it is titrated to the last end point, and counts there. */
  boolean hasBlank() {
    return measurand != Measurand.FREE_ALKALI;
  }

  /** Whether it is titrated with acid; with alkali otherwise. */
  boolean takesAcid() {
    return measurand == Measurand.SOAP || measurand == Measurand.FREE_ALKALI;
  }

  /** What its titrant is taken to be dissolved in. */
  Solvent solvent() {
    return switch (measurand) {
      case ACID_NUMBER, FREE_FATTY_ACID -> Solvent.ALCOHOL;
      default -> Solvent.WATER;
    };
  }

  String unit() {
    return measurand.unit().orElseThrow();
  }

  /** What to say of a figure that is none. */
  String belowDetection() {
    return hasBlank()
        ? "Below detection: the sample took no more titrant than the blank. The signed value is kept."
        : "Below detection: no titrant was used up to the first end point.";
  }
}
