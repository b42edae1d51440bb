package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.measure.Rounding;

/**
 * Limits that somebody wants to adopt.
 *
 * @param source where they come from
 * @param dispersion how sigma is estimated; null for the stream's setting
 * @param excluded results of the baseline that are left out of it
 * @param effectiveFrom the first time of sampling that they judge; null for the usual
 * @param reason why
 * @param reestimateAt from how many results, counted from the first, to estimate them once more,
 *     rising; empty for never
 */
public record NewLimits(
    Source source,
    @Nullable Dispersion dispersion,
    List<Exclusion> excluded,
    @Nullable Instant effectiveFrom,
    @Nullable String reason,
    List<Integer> reestimateAt) {

  public NewLimits {
    excluded = List.copyOf(excluded);
    reestimateAt = List.copyOf(reestimateAt);
  }

  /** Where limits come from. */
  public sealed interface Source {}

  /** The first results of the stream. */
  public record First(int count) implements Source {}

  /** The latest results of the stream. */
  public record Last(int count) implements Source {}

  /** The results sampled in a period, both ends inclusive. */
  public record Period(Instant from, Instant to) implements Source {}

  /** Known values instead of results, on the scale on which the stream is charted. */
  public record Given(double centre, double sigma) implements Source {

    Plotting plotting(Scale scale) {
      return switch (scale) {
        case LINEAR -> Plotting.LINEAR;
        case LOG -> Plotting.LOG;
        case BOX_COX ->
            throw new IllegalArgumentException(
                "The power of a Box-Cox scale comes from a baseline. Adopt limits from one, or set chart.scale to linear or log.");
      };
    }

    /**
     * The limits.
     *
     * @throws IllegalArgumentException for impossible values, or values that are no logarithms
     */
    ControlLimits limits(Scale scale, boolean nonNegative) {
      ControlLimits limits = new ControlLimits(centre, sigma, nonNegative && scale == Scale.LINEAR);
      Double upper = plotting(scale).shown(limits.upper());
      Double lower = plotting(scale).shown(limits.lower());
      if (scale == Scale.LOG && (upper == null || lower == null || lower == 0)) {
        throw new IllegalArgumentException(
            "On a log scale give the mean and the standard deviation of the natural logarithms of the results: %s and %s are not those of results."
                .formatted(Rounding.of(centre), Rounding.of(sigma)));
      }
      return limits;
    }
  }
}
