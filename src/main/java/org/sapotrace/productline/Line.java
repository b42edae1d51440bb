package org.sapotrace.productline;

import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;

/**
 * A product made one way, from one kind of feedstock with one alkali.
 *
 * @param slug its name in addresses, chosen by the client
 * @param name its name for people
 * @param alkali the alkali of the catalyst, whose soap is found in the product
 * @param density15KgPerM3 density of the product at 15 °C in kg/m³; null where nobody gave one
 * @param density15StandardUncertainty standard uncertainty of that density in kg/m³; null likewise
 * @param notes whatever people should know
 * @param version counts the changes, from 1
 */
public record Line(
    String slug,
    String name,
    Alkali alkali,
    @Nullable Double density15KgPerM3,
    @Nullable Double density15StandardUncertainty,
    @Nullable String notes,
    int version) {

  /** Whether the other line says the same, whatever its version. */
  boolean saysTheSameAs(Line other) {
    return withVersion(other.version).equals(other);
  }

  Line withVersion(int newVersion) {
    return new Line(
        slug, name, alkali, density15KgPerM3, density15StandardUncertainty, notes, newVersion);
  }
}
