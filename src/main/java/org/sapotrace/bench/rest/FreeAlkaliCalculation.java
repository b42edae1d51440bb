package org.sapotrace.bench.rest;

import jakarta.validation.constraints.NotNull;
import org.sapotrace.bench.Analyte;
import org.sapotrace.chemistry.Alkali;

/** A titration of free alkali to be calculated. */
@SuppressWarnings("NullAway.Init") // What must be there is set and checked before it is used.
final class FreeAlkaliCalculation extends SampleCalculation {

  @NotNull Alkali alkali;

  Analyte analyte() {
    return Analyte.freeAlkali(alkali);
  }
}
