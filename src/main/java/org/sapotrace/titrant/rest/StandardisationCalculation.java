package org.sapotrace.titrant.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.StandardReadings;
import org.sapotrace.chemistry.PrimaryStandard;
import org.sapotrace.http.SafeText;

/** A standardisation to be calculated: as it is recorded, at any time or none. */
record StandardisationCalculation(
    @NotNull PrimaryStandard standard,
    @Nullable Double purity,
    @Nullable Instant performedAt,
    @Nullable Double blankMl,
    @SafeText(max = 63) @Nullable String glassware,
    @SafeText(max = 63) @Nullable String balance,
    @NotEmpty @Size(max = NewStandardTitration.MOST)
        List<@NotNull @Valid NewStandardTitration> replicates) {

  StandardReadings readings() {
    return new StandardReadings(
        standard,
        purity,
        blankMl,
        glassware,
        balance,
        replicates.stream().map(NewStandardTitration::typed).toList());
  }
}
