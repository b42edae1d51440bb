package org.sapotrace.productline.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Pattern;
import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.StreamDefinition;
import org.sapotrace.refusal.Refusal;

/** A stream as a client puts it. */
record NewStream(
    @NotNull @SafeText(max = 200) String name,
    @NotNull SamplingPoint samplingPoint,
    @NotNull Measurand measurand,
    // UCUM codes are printable ASCII without spaces.
    @NotNull @Pattern(regexp = "[!-~]{1,40}", message = "must be a UCUM code such as mg/kg or mL")
        String unit,
    @Valid @Nullable NewSpecification specification,
    @Slug @Nullable String inlet,
    @Valid @Nullable NewChart chart) {

  /** Specification limits and the first day on which they hold. */
  record NewSpecification(
      @Nullable Double lower, @Nullable Double upper, @Nullable LocalDate from) {}

  StreamDefinition toDefinition(String line, String slug) {
    return new StreamDefinition(
        line,
        slug,
        name,
        samplingPoint,
        measurand,
        unit,
        inlet,
        limits(),
        specification == null ? null : specification.from(),
        chart == null ? ChartSettings.DEFAULT : chart.toSettings());
  }

  private @Nullable Specification limits() {
    if (specification == null || (specification.lower() == null && specification.upper() == null)) {
      return null;
    }
    return Refusal.at(
        "#/specification", () -> new Specification(specification.lower(), specification.upper()));
  }
}
