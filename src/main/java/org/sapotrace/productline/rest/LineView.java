package org.sapotrace.productline.rest;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.productline.Line;

/** A line as it is answered. */
record LineView(
    String line,
    String name,
    Alkali alkali,
    @Nullable Double density15KgPerM3,
    @Nullable Double density15StandardUncertainty,
    @Nullable String notes) {

  static LineView of(Line line) {
    return new LineView(
        line.slug(),
        line.name(),
        line.alkali(),
        line.density15KgPerM3(),
        line.density15StandardUncertainty(),
        line.notes());
  }
}
