package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;
import org.sapotrace.bench.rest.TypedReadings.NewReplicate;
import org.sapotrace.bench.rest.TypedReadings.NewThroughput;
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
    @Nullable NewThroughput throughput,
    @Nullable Double inletMgPerKg)
    implements NewEntry {

  @Override
  public Titration toEntry() {
    Readings readings = TypedReadings.of(titrant, blankMl, glassware, balance, replicates);
    Throughput passed = NewThroughput.checked(throughput, inletMgPerKg);
    return new Titration(batch, sampledAt, analyst, readings, passed, inletMgPerKg);
  }
}
