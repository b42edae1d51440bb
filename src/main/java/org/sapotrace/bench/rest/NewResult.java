package org.sapotrace.bench.rest;

import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.PositiveOrZero;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.http.SafeText;

/** A result measured elsewhere, to be recorded. */
record NewResult(
    @NotNull @SafeText(max = 100) String batch,
    @NotNull Instant sampledAt,
    @NotEmpty @Size(max = 100)
        List<@NotNull @DecimalMin("-1e100") @DecimalMax("1e100") Double> values,
    @PositiveOrZero @DecimalMax("1e100") @Nullable Double expandedUncertainty,
    @DecimalMin("1") @DecimalMax("100") @Nullable Double coverageFactor,
    @SafeText(max = 200) @Nullable String source)
    implements NewEntry {

  @Override
  public MeasuredElsewhere toEntry() {
    return new MeasuredElsewhere(
        batch, sampledAt, values, expandedUncertainty, coverageFactor, source);
  }
}
