package org.sapotrace.forecast;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Attribution;
import org.sapotrace.attribution.Cause;
import org.sapotrace.attribution.Evidence;

/**
 * What is on record of the time around a signal.
 *
 * @param from the beginning of that time, from which days are counted
 * @param shifted the stream that signalled, on the scale on which shifts add up; null where nobody
 *     knows how widely it scatters
 * @param before how many of its results lie before the change
 * @param isLogarithmic whether that scale is ln of the unit
 * @param all the evidence
 * @param measurement standard uncertainty of a single result, on that scale
 * @param feed the stream whose soap counts as the feed; null for the crude
 * @param isOver whether the signal is, so that what is titrated now does not tell of it
 */
record Gathered(
    Instant from,
    @Nullable Evidence shifted,
    int before,
    boolean isLogarithmic,
    List<Evidence> all,
    double measurement,
    @Nullable String feed,
    boolean isOver) {

  /** So many results before the change tell what there was before it. */
  static final int LEAST_BEFORE = 5;

  /** A change is looked for in so many results before its first estimate, at most. */
  private static final int MOST_LOOKED_AT = 60;

  private static final double MILLIS_A_DAY = Duration.ofDays(1).toMillis();

  /** A time in days since another. */
  static double day(Instant from, Instant at) {
    return Duration.between(from, at).toMillis() / MILLIS_A_DAY;
  }

  Instant at(double day) {
    return from.plusMillis(Math.round(day * MILLIS_A_DAY));
  }

  /** Why nobody can say how far the stream moved; empty where somebody can. */
  Optional<String> lacking() {
    if (before < LEAST_BEFORE) {
      return Optional.of(
          "Fewer than %d results that count are on record before the change, so that nobody can say how far it went."
              .formatted(LEAST_BEFORE));
    }
    if (shifted == null) {
      return Optional.of(
          "All results before the change are equal, and their uncertainty is not on record, so that nobody can say what is more than chance.");
    }
    return shifted.results().size() > before
        ? Optional.empty()
        : Optional.of("No result that counts is on record behind the change.");
  }

  /** The feed of a tower is named by its stream, lest somebody look at the crude. */
  String called(Cause cause) {
    return cause == Cause.FEED && feed != null
        ? "soap that stream %s brings".formatted(feed)
        : cause.id();
  }

  /** The first half of what lies before the estimated change had surely not moved. */
  Attribution attribution() {
    return Attribution.of(
        Objects.requireNonNull(shifted),
        Math.max(Math.max(1, before / 2), before - MOST_LOOKED_AT),
        all,
        measurement);
  }

  /** By what a shift on the scale is multiplied to be one in the unit. */
  double toUnit(double shift) {
    if (!isLogarithmic) {
      return 1;
    }
    double level =
        Objects.requireNonNull(shifted).results().subList(0, before).stream()
            .mapToDouble(Evidence.Result::value)
            .average()
            .orElseThrow();
    double growth = Math.abs(shift) < 1e-9 ? 1 : Math.expm1(shift) / shift;
    return Math.exp(level) * growth;
  }
}
