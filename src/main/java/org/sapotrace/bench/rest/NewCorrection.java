package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.List;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Correction;
import org.sapotrace.http.SafeText;
import org.sapotrace.refusal.Refusal;

/** A correction of a result: another titration, other values, or its withdrawal. */
record NewCorrection(
    @NotNull @SafeText(max = 1000) String reason,
    @Valid @Nullable NewTitration titration,
    @Size(min = 1, max = 100)
        @Nullable List<@NotNull @DecimalMin("-1e100") @DecimalMax("1e100") Double> values,
    @Nullable Boolean withdrawn) {

  /** What comes of this, or a refusal that points at the titration within this body. */
  <T> T pointingInto(Supplier<T> value) {
    return titration == null ? value.get() : Refusal.within("titration", value);
  }

  Correction toCorrection() {
    boolean withdrawal = withdrawn != null && withdrawn;
    int ways = (titration == null ? 0 : 1) + (values == null ? 0 : 1) + (withdrawal ? 1 : 0);
    if (ways != 1) {
      throw Refusal.impossible(
          "Say what counts instead: a titration, or values, or withdrawn as true.");
    }
    return new Correction(reason, change());
  }

  private Correction.Change change() {
    if (titration != null) {
      return new Correction.Retitrated(titration.toEntry());
    }
    return values == null ? new Correction.Withdrawn() : new Correction.Remeasured(values);
  }
}
