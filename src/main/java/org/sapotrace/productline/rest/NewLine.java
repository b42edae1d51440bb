package org.sapotrace.productline.rest;

import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.http.SafeText;
import org.sapotrace.productline.Line;
import org.sapotrace.refusal.Refusal;

/** A line as a client puts it. Densities of fuels lie well within the bounds. */
record NewLine(
    @NotNull @SafeText(max = 200) String name,
    @NotNull Alkali alkali,
    @DecimalMin("500") @DecimalMax("1500") @Nullable Double density15KgPerM3,
    @DecimalMin("0") @DecimalMax("100") @Nullable Double density15StandardUncertainty,
    @SafeText(max = 4000, multiline = true) @Nullable String notes) {

  Line toLine(String slug) {
    if (density15KgPerM3 == null && density15StandardUncertainty != null) {
      throw Refusal.impossible(
          "#/density15StandardUncertainty",
          "An uncertainty says nothing without density15KgPerM3.");
    }
    return new Line(slug, name, alkali, density15KgPerM3, density15StandardUncertainty, notes, 0);
  }
}
