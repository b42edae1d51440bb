package org.sapotrace.monitoring.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.Min;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.http.SafeText;
import org.sapotrace.monitoring.Exclusion;
import org.sapotrace.monitoring.NewLimits;
import org.sapotrace.refusal.Refusal;

/** Limits as a client asks for them: from a baseline or as given. */
record LimitsRequest(
    @Valid @Nullable Baseline baseline,
    @Valid @Nullable Given given,
    @Size(max = 1000) @Nullable List<@NotNull @Valid Excluded> exclude,
    @Nullable Dispersion dispersion,
    @Nullable Instant effectiveFrom,
    @SafeText(max = 1000) @Nullable String reason,
    @Size(max = 5) @Nullable List<@NotNull @Max(1000) Integer> reestimateAt) {

  /** Results to compute from: the first, the latest, or those of a period. */
  record Baseline(
      @Min(1) @Max(1_000_000) @Nullable Integer first,
      @Min(1) @Max(1_000_000) @Nullable Integer last,
      @Nullable Instant from,
      @Nullable Instant to) {

    NewLimits.Source toSource() {
      boolean period = from != null || to != null;
      int ways = (first == null ? 0 : 1) + (last == null ? 0 : 1) + (period ? 1 : 0);
      if (ways != 1) {
        throw Refusal.impossible(
            "#/baseline", "Say which results: first, or last, or from and to.");
      }
      if (first != null) {
        return new NewLimits.First(first);
      }
      if (last != null) {
        return new NewLimits.Last(last);
      }
      if (from == null || to == null || to.isBefore(from)) {
        throw Refusal.impossible(
            "#/baseline", "A period needs from and to, and does not end before it begins.");
      }
      return new NewLimits.Period(from, to);
    }
  }

  /** Known values, in the stream's unit. */
  record Given(
      @NotNull @DecimalMin("-1e100") @DecimalMax("1e100") Double centre,
      @NotNull @DecimalMin("-1e100") @DecimalMax("1e100") Double sigma) {}

  /** A result to leave out of the baseline, and why. */
  record Excluded(@NotNull UUID result, @NotNull @SafeText(max = 1000) String cause) {

    Exclusion toExclusion() {
      return new Exclusion(result, cause);
    }
  }

  NewLimits toNewLimits() {
    return new NewLimits(source(), dispersion, exclusions(), effectiveFrom, reason, plan());
  }

  private List<Integer> plan() {
    if (reestimateAt == null || reestimateAt.isEmpty()) {
      return List.of();
    }
    if (baseline == null || baseline.first() == null) {
      throw Refusal.impossible(
          "#/reestimateAt",
          "Limits are estimated once more only where they come from the first results.");
    }
    int before = baseline.first();
    for (int i = 0; i < reestimateAt.size(); i++) {
      if (reestimateAt.get(i) <= before) {
        throw Refusal.impossible(
            "#/reestimateAt/" + i,
            "Limits are estimated once more from more results than before, and these are %d."
                .formatted(before));
      }
      before = reestimateAt.get(i);
    }
    return reestimateAt;
  }

  private List<Exclusion> exclusions() {
    return exclude == null ? List.of() : exclude.stream().map(Excluded::toExclusion).toList();
  }

  private NewLimits.Source source() {
    if (baseline != null && given == null) {
      return baseline.toSource();
    }
    if (given != null && baseline == null) {
      if (!exclusions().isEmpty()) {
        throw Refusal.impossible(
            "#/exclude", "There is no baseline to leave results out of where limits are given.");
      }
      if (dispersion != null) {
        throw Refusal.impossible(
            "#/dispersion", "Nothing is estimated where centre and sigma are given.");
      }
      return new NewLimits.Given(given.centre(), given.sigma());
    }
    throw Refusal.impossible("Give either a baseline or given centre and sigma.");
  }
}
