package org.sapotrace.bench.rest;

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

/** A standardisation to be calculated. */
record StandardisationCalculation(
    @NotNull PrimaryStandard standard,
    @Nullable Double purity,
    @Nullable Instant performedAt,
    @Nullable Double blankMl,
    @SafeText(max = 63) @Nullable String glassware,
    @SafeText(max = 63) @Nullable String balance,
    @NotEmpty @Size(max = TypedReadings.MOST_REPLICATES) List<@NotNull @Valid Run> replicates) {

  /** One titration of the standard. */
  record Run(
      @Nullable Double standardG,
      @Valid @Nullable Solution solution,
      @Nullable Double aliquotMl,
      @NotNull Double titrantMl) {

    StandardReadings.Run typed() {
      return new StandardReadings.Run(
          standardG, solution == null ? null : solution.typed(), aliquotMl, titrantMl);
    }
  }

  /** A solution of the standard. */
  record Solution(@NotNull Double standardG, @NotNull Double volumeMl) {

    StandardReadings.Solution typed() {
      return new StandardReadings.Solution(standardG, volumeMl);
    }
  }

  StandardReadings readings() {
    return new StandardReadings(
        standard,
        purity,
        blankMl,
        glassware,
        balance,
        replicates.stream().map(Run::typed).toList());
  }
}
