package org.sapotrace.bench.rest;

import com.fasterxml.jackson.annotation.JsonAutoDetect;
import com.fasterxml.jackson.annotation.JsonAutoDetect.Visibility;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Analyte;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.TitrationBasis;
import org.sapotrace.bench.rest.TypedReadings.NewReplicate;
import org.sapotrace.bench.rest.TypedReadings.NewThroughput;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.http.SafeText;
import org.sapotrace.refusal.Refusal;

/** A titration to be calculated: as it is recorded, with what its line would say. */
@JsonAutoDetect(fieldVisibility = Visibility.ANY)
@SuppressWarnings("NullAway.Init") // What must be there is set and checked before it is used.
abstract class SampleCalculation {

  /** Limits to judge by; the date may be left in, and says nothing here. */
  record SpecificationGiven(
      @Nullable Double lower, @Nullable Double upper, @Nullable LocalDate from) {}

  @SafeText(max = 100)
  @Nullable String batch;

  @Nullable Instant sampledAt;

  @SafeText(max = 100)
  @Nullable String analyst;

  @NotNull @Valid TypedReadings.NewTitrant titrant;

  @Nullable Double blankMl;

  @SafeText(max = 63)
  @Nullable String glassware;

  @SafeText(max = 63)
  @Nullable String balance;

  @NotEmpty
  @Size(max = TypedReadings.MOST_REPLICATES)
  List<@NotNull @Valid NewReplicate> replicates;

  @Nullable NewThroughput throughput;

  @Nullable Double inletMgPerKg;

  @DecimalMin("500")
  @DecimalMax("1500")
  @Nullable Double density15KgPerM3;

  @DecimalMin("0")
  @DecimalMax("100")
  @Nullable Double density15StandardUncertainty;

  @Valid @Nullable SpecificationGiven specification;

  Readings readings() {
    // They say nothing of the figure, but are held to what a recording would be held to.
    NewThroughput.checked(throughput, inletMgPerKg);
    return TypedReadings.of(titrant, blankMl, glassware, balance, replicates);
  }

  /** What it is computed with, to be expressed as that. */
  TitrationBasis basis(Analyte analyte) {
    if (density15KgPerM3 == null && density15StandardUncertainty != null) {
      throw Refusal.impossible(
          "#/density15StandardUncertainty",
          "An uncertainty says nothing without density15KgPerM3.");
    }
    return TitrationBasis.ofCalculation(
        analyte, density15KgPerM3, density15StandardUncertainty, limits());
  }

  private @Nullable Specification limits() {
    SpecificationGiven given = specification;
    return given == null
        ? null
        : Refusal.at("#/specification", () -> new Specification(given.lower(), given.upper()));
  }
}
