package org.sapotrace.titrant.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.StandardReadings;

/** One titration of a primary standard as a client sends it. */
record NewStandardTitration(
    @Nullable Double standardG,
    @Valid @Nullable Solution solution,
    @Nullable Double aliquotMl,
    @NotNull Double titrantMl) {

  /** More titrations than this are a slip of the client, not a careful analyst. */
  static final int MOST = 100;

  /** A solution of the standard. */
  record Solution(@NotNull Double standardG, @NotNull Double volumeMl) {}

  StandardReadings.Run typed() {
    return new StandardReadings.Run(
        standardG,
        solution == null
            ? null
            : new StandardReadings.Solution(solution.standardG(), solution.volumeMl()),
        aliquotMl,
        titrantMl);
  }
}
