package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Dispersion;

/**
 * Limits that somebody wants to adopt.
 *
 * @param source where they come from
 * @param dispersion how sigma is estimated; null for the stream's setting
 * @param excluded results of the baseline that are left out of it
 * @param effectiveFrom the first time of sampling that they judge; null for the usual
 * @param reason why
 */
public record NewLimits(
    Source source,
    @Nullable Dispersion dispersion,
    List<Exclusion> excluded,
    @Nullable Instant effectiveFrom,
    @Nullable String reason) {

  public NewLimits {
    excluded = List.copyOf(excluded);
  }

  /** Where limits come from. */
  public sealed interface Source {}

  /** The first results of the stream. */
  public record First(int count) implements Source {}

  /** The latest results of the stream. */
  public record Last(int count) implements Source {}

  /** The results sampled in a period, both ends inclusive. */
  public record Period(Instant from, Instant to) implements Source {}

  /** Known values instead of results, in the stream's unit. */
  public record Given(double centre, double sigma) implements Source {}
}
