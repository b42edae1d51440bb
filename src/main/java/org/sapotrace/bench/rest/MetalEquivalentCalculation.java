package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.MetalEquivalent;
import org.sapotrace.refusal.Refusal;

/** Soap whose metal is asked for, or metal whose soap is. */
record MetalEquivalentCalculation(
    @NotNull Alkali alkali,
    @DecimalMin("-1e6") @DecimalMax("1e6") @Nullable Double soapMgPerKg,
    @DecimalMin("-1e6") @DecimalMax("1e6") @Nullable Double metalMgPerKg) {

  /** The other side of the equivalence: a metal, or what soap is expressed as. */
  @JsonInclude(JsonInclude.Include.NON_NULL)
  record Answer(@Nullable Alkali metal, @Nullable String expressedAs, double value, String unit) {}

  Answer answer() {
    if (soapMgPerKg != null && metalMgPerKg == null) {
      return new Answer(alkali, null, MetalEquivalent.metal(alkali, soapMgPerKg), "mg/kg");
    }
    if (metalMgPerKg != null && soapMgPerKg == null) {
      return new Answer(
          null, alkali.soapName(), MetalEquivalent.soap(alkali, metalMgPerKg), "mg/kg");
    }
    throw Refusal.impossible("Give soapMgPerKg or metalMgPerKg, and not both.");
  }
}
