package org.sapotrace.productline;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.refusal.Refusal;

/**
 * What a client says of a stream.
 *
 * @param unit UCUM code; the measurand's own where it has one
 * @param inlet the slug of the stream before the wash or tower; null for none
 * @param specification what the product must meet; null, or without an upper limit, for the default
 *     of its measurand and sampling point
 * @param specificationFrom first day on which it holds; null for from now on
 */
public record StreamDefinition(
    String line,
    String slug,
    String name,
    SamplingPoint samplingPoint,
    Measurand measurand,
    String unit,
    @Nullable String inlet,
    @Nullable Specification specification,
    @Nullable LocalDate specificationFrom,
    ChartSettings chart) {

  public StreamDefinition {
    String expected = measurand.unit().orElse(unit);
    if (!expected.equals(unit)) {
      throw Refusal.impossible(
          "#/unit",
          "%s is recorded in %s, not in %s.".formatted(measurand.label(), expected, unit));
    }
  }
}
