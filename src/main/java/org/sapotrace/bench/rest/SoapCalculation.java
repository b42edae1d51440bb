package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
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
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.SoapBasis;
import org.sapotrace.bench.rest.SoapReadings.NewReplicate;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.http.SafeText;
import org.sapotrace.measure.MolarMass;
import org.sapotrace.refusal.Refusal;

/** A soap titration to be calculated: as it is recorded, with what its line would say. */
record SoapCalculation(
    @SafeText(max = 100) @Nullable String batch,
    @Nullable Instant sampledAt,
    @SafeText(max = 100) @Nullable String analyst,
    @NotNull @Valid SoapReadings.NewTitrant titrant,
    @Nullable Double blankMl,
    @SafeText(max = 63) @Nullable String glassware,
    @Nullable JsonNode balance,
    @NotEmpty @Size(max = SoapReadings.MOST_REPLICATES)
        List<@NotNull @Valid NewReplicate> replicates,
    @Nullable Alkali alkali,
    @DecimalMin("1") @DecimalMax("10000") @Nullable Double soapMolarMass,
    @DecimalMin("500") @DecimalMax("1500") @Nullable Double density15KgPerM3,
    @DecimalMin("0") @DecimalMax("100") @Nullable Double density15StandardUncertainty,
    @Valid @Nullable SpecificationGiven specification) {

  /** Limits to judge by; the date may be left in, and says nothing here. */
  record SpecificationGiven(
      @Nullable Double lower, @Nullable Double upper, @Nullable LocalDate from) {}

  Readings readings() {
    return SoapReadings.of(titrant, blankMl, glassware, balance, replicates);
  }

  SoapBasis basis() {
    if (alkali == null && soapMolarMass == null) {
      throw Refusal.impossible(
          "#/alkali", "Say whose soap it is expressed as: give alkali, or soapMolarMass in g/mol.");
    }
    if (alkali != null && soapMolarMass != null) {
      throw Refusal.impossible("#/soapMolarMass", "Give alkali or soapMolarMass, not both.");
    }
    return SoapBasis.ofCalculation(
        alkali,
        soapMolarMass == null ? null : new MolarMass(soapMolarMass),
        density15KgPerM3,
        density15StandardUncertainty,
        limits());
  }

  private @Nullable Specification limits() {
    return specification == null
        ? null
        : Refusal.at(
            "#/specification",
            () -> new Specification(specification.lower(), specification.upper()));
  }
}
