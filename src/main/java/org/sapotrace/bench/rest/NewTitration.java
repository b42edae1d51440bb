package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
import jakarta.validation.Valid;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Titration;
import org.sapotrace.bench.rest.TypedReadings.NewReplicate;
import org.sapotrace.http.SafeText;

/** A titration to be recorded. */
record NewTitration(
    @NotNull @SafeText(max = 100) String batch,
    @NotNull Instant sampledAt,
    @SafeText(max = 100) @Nullable String analyst,
    @NotNull @Valid TypedReadings.NewTitrant titrant,
    @Nullable Double blankMl,
    @SafeText(max = 63) @Nullable String glassware,
    @SafeText(max = 63) @Nullable String balance,
    @NotEmpty @Size(max = TypedReadings.MOST_REPLICATES)
        List<@NotNull @Valid NewReplicate> replicates,
    @Nullable JsonNode throughput,
    @Nullable JsonNode inletMgPerKg)
    implements NewEntry {

  @Override
  public Titration toEntry() {
    TypedReadings.refuseForecast(throughput, inletMgPerKg);
    return new Titration(
        batch,
        sampledAt,
        analyst,
        TypedReadings.of(titrant, blankMl, glassware, balance, replicates));
  }
}
