package org.sapotrace.titrant;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.WeightedLine;

/**
 * Where the normality of a lot is going, by a {@link WeightedLine} through its standardisations
 * against the days.
 *
 * @param drift null where standardisations are missing
 * @param leavesTolerance null where no drift shows, or where the line leaves it neither after the
 *     first standardisation nor within ten years
 * @param reason what that says, or what is missing, in a sentence
 */
record StrengthTrend(@Nullable Drift drift, @Nullable Leaving leavesTolerance, String reason) {

  // Nobody keeps a lot so long.
  private static final double HORIZON_DAYS = 3653;

  private static final double SECONDS_PER_DAY = 86_400;

  /**
   * How fast the normality moves, with a 95 % interval.
   *
   * @param perDay in mol/L
   * @param standardError of it in mol/L
   * @param lower end of its interval in mol/L
   * @param upper end of its interval in mol/L
   * @param perCentPerDay in % of the nominal normality
   * @param model in words
   */
  record Drift(
      double perDay,
      double standardError,
      double lower,
      double upper,
      double perCentPerDay,
      String model) {}

  /**
   * When the line leaves the tolerance; days of UTC.
   *
   * @param earliest by its 95 % interval; null where that is before the first standardisation
   * @param latest likewise; null where that is more than ten years off
   */
  record Leaving(LocalDate on, @Nullable LocalDate earliest, @Nullable LocalDate latest) {}

  /**
   * The trend of a lot.
   *
   * @param standardisations that count, in order
   * @param at from when on ten years are looked at
   */
  static StrengthTrend of(LotDeclaration lot, List<DatedStrength> standardisations, Instant at) {
    if (standardisations.size() < 2) {
      return new StrengthTrend(
          null,
          null,
          standardisations.isEmpty()
              ? "The lot has not been standardised, and a drift shows from two standardisations on: standardise it."
              : "A drift shows from two standardisations on, and there is one: standardise the lot again.");
    }
    Instant first = standardisations.get(0).performedAt();
    List<WeightedLine.Observation> observations =
        standardisations.stream().map(each -> observation(first, each)).toList();
    if (observations.stream().allMatch(each -> each.x() == 0)) {
      return new StrengthTrend(
          null, null, "All standardisations are of the same time, so no drift shows.");
    }
    WeightedLine line = WeightedLine.through(observations);
    Drift drift = drift(lot, line, observations.size());
    return line.isInclined()
        ? inclined(lot, line, drift, first, at)
        : new StrengthTrend(drift, null, level(drift, observations.size()));
  }

  private static WeightedLine.Observation observation(Instant first, DatedStrength found) {
    return new WeightedLine.Observation(
        days(first, found.performedAt()),
        found.normality().quantity().molesPerLitre(),
        found.normality().standardUncertainty());
  }

  private static Drift drift(LotDeclaration lot, WeightedLine line, int n) {
    WeightedLine.Interval interval = line.slopeInterval();
    return new Drift(
        line.slope(),
        line.slopeStandardError(),
        interval.lower(),
        interval.upper(),
        100 * line.slope() / lot.nominalNormality(),
        n == 2
            ? "straight line through two standardisations, by their uncertainties alone"
            : "straight line through %d standardisations, weighted by 1/u2".formatted(n));
  }

  private static String level(Drift drift, int n) {
    return "No drift shows: by %d standardisations the normality moves by %s to %s mol/L a day, and may as well stay.%s"
        .formatted(
            n,
            Rounding.of(drift.lower()),
            Rounding.of(drift.upper()),
            n == 2 ? " A third standardisation says more." : "");
  }

  private static StrengthTrend inclined(
      LotDeclaration lot, WeightedLine line, Drift drift, Instant first, Instant at) {
    Specification tolerance = lot.tolerance();
    double limit = Objects.requireNonNull(line.slope() > 0 ? tolerance.upper() : tolerance.lower());
    double leaves = line.reaches(limit);
    double horizon = days(first, at) + HORIZON_DAYS;
    String drifts =
        "The normality %s by %s %% of its nominal value a day, and "
            .formatted(
                line.slope() > 0 ? "rises" : "falls", Rounding.of(Math.abs(drift.perCentPerDay())));
    if (leaves < 0) {
      return new StrengthTrend(
          drift, null, drifts + "was outside its tolerance from the first standardisation on.");
    }
    if (leaves > horizon) {
      return new StrengthTrend(
          drift, null, drifts + "stays within its tolerance for more than ten years.");
    }
    WeightedLine.Interval interval = line.reaching(limit);
    Leaving leaving =
        new Leaving(
            day(first, leaves),
            interval.lower() < 0 ? null : day(first, interval.lower()),
            interval.upper() > horizon ? null : day(first, interval.upper()));
    boolean isPast = leaves < days(first, at);
    return new StrengthTrend(
        drift,
        leaving,
        drifts + (isPast ? "left" : "leaves") + " its tolerance on " + leaving.on() + ".");
  }

  private static double days(Instant from, Instant to) {
    Duration passed = Duration.between(from, to);
    return (passed.getSeconds() + passed.getNano() / 1e9) / SECONDS_PER_DAY;
  }

  private static LocalDate day(Instant first, double days) {
    return LotCautions.day(first.plusSeconds((long) (days * SECONDS_PER_DAY)));
  }
}
