package org.sapotrace.bench.rest;

import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Analyte;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.refusal.Refusal;

/** A titration of soap to be calculated. */
final class SoapCalculation extends SampleCalculation {

  @Nullable Alkali alkali;

  @DecimalMin("1")
  @DecimalMax("10000")
  @Nullable Double soapMolarMass;

  Analyte analyte() {
    if (alkali != null && soapMolarMass != null) {
      throw Refusal.impossible("#/soapMolarMass", "Give alkali or soapMolarMass, not both.");
    }
    if (alkali != null) {
      return Analyte.soap(alkali);
    }
    if (soapMolarMass != null) {
      return Analyte.soap(new MolarMass(soapMolarMass));
    }
    throw Refusal.impossible(
        "#/alkali", "Say whose soap it is expressed as: give alkali, or soapMolarMass in g/mol.");
  }
}
