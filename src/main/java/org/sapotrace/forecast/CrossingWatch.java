package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import java.time.Instant;
import java.time.InstantSource;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.ResultsRecorded;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Forecast.Parameter;

/*
 * It runs in the transaction that records, under the stream's lock, once for all that is recorded
 * together. Towers are foreseen by what goes through, which the rate of late turns into days. What
 * counts is the estimate and not an end of its interval: the lower end would tell of almost every
 * young trend, and the upper end of a breakthrough too late to act.
 *
 * What was told is told again only after it was gone. Between one horizon and one and a half nothing
 * changes, so that scatter about the horizon does not tell twice. What rests at its limit has by turns
 * passed it and no trend towards it: without a trend it is gone where its level lies clear of the limit,
 * by 3 standard errors, and without any estimate once a new bed or phase began: a bench that changes
 * over its unit has too few for an estimate as well, and its tower is where it was.
 */
/** Tells whoever wants to know when a forecast comes close to its limit. */
@ApplicationScoped
class CrossingWatch {

  private static final double AWAY = 1.5;
  private static final double CLEAR = 3;
  private static final int LATEST = 10;

  private final Outlooks outlooks;
  private final Samples samples;
  private final Results results;
  private final Logbook logbook;
  private final Crossings crossings;
  private final ForecastHorizon horizon;
  private final InstantSource clock;
  private final Event<CrossingForeseen> foreseen;

  CrossingWatch(
      Outlooks outlooks,
      Samples samples,
      Results results,
      Logbook logbook,
      Crossings crossings,
      ForecastHorizon horizon,
      InstantSource clock,
      Event<CrossingForeseen> foreseen) {
    this.outlooks = outlooks;
    this.samples = samples;
    this.results = results;
    this.logbook = logbook;
    this.crossings = crossings;
    this.horizon = horizon;
    this.clock = clock;
    this.foreseen = foreseen;
  }

  void watch(@Observes ResultsRecorded recorded) {
    Stream stream = recorded.stream();
    if (!isWatched(stream)) {
      return;
    }
    Outlook outlook = outlooks.of(stream, WashPlan.ONE_STAGE);
    Optional<UUID> told = crossings.told(stream.id());
    if (told.isEmpty()) {
      tellIfNear(recorded, outlook);
    } else if (isGone(stream, outlook, told.get())) {
      crossings.forget(stream.id());
    }
  }

  private void tellIfNear(ResultsRecorded recorded, Outlook outlook) {
    Outlook.Remaining left = outlook.remaining();
    Double days = left == null ? null : days(outlook, left);
    if (left != null && days != null && days <= horizon.days()) {
      latest(recorded.stream(), outlook)
          .filter(sample -> !recorded.hindsight().covers(sample.sampledAt()))
          .ifPresent(sample -> tell(recorded.stream(), outlook, left, days, sample));
    }
  }

  /** Whether what was told lies far off again. */
  private boolean isGone(Stream stream, Outlook outlook, UUID told) {
    return switch (outlook.status()) {
      case FORECAST -> {
        Double days = days(outlook, Objects.requireNonNull(outlook.remaining()));
        yield days != null && days > AWAY * horizon.days();
      }
      case NO_TREND -> isClearOfLimits(stream, outlook);
      case INSUFFICIENT -> isOfBefore(stream, told);
    };
  }

  /** Whether a result was sampled before the present bed or phase began, or does not count. */
  private boolean isOfBefore(Stream stream, UUID told) {
    Instant began =
        Latest.of(
            Outlooks.kind(stream) == Outlook.Kind.BREAKTHROUGH
                ? logbook.countingAnew(stream)
                : logbook.beginningPhases(stream));
    return results
        .result(told)
        .filter(result -> !result.latest().withdrawn())
        .map(result -> began != null && result.sampledAt().isBefore(began))
        .orElse(true);
  }

  private boolean isClearOfLimits(Stream stream, Outlook outlook) {
    Optional<Parameter> level =
        outlook.parameters().stream().filter(each -> each.name().equals("level")).findFirst();
    Optional<Specification> limits =
        latest(stream, outlook).flatMap(sample -> stream.specificationAt(sample.sampledAt()));
    if (level.isEmpty() || limits.isEmpty()) {
      return true;
    }
    double margin = CLEAR * level.get().standardError();
    Double upper = limits.get().upper();
    Double lower = limits.get().lower();
    return (upper == null || level.get().value() + margin < upper)
        && (lower == null || level.get().value() - margin > lower);
  }

  /** Whether there is a limit to cross, and a forecast in time or by what goes through. */
  private static boolean isWatched(Stream stream) {
    Outlook.Kind kind = Outlooks.kind(stream);
    return stream.line() != null
        && !stream.specifications().isEmpty()
        && kind != Outlook.Kind.FLUSH
        && kind != Outlook.Kind.WATER_WASH;
  }

  /** How many days are left; null where nothing tells how much goes through in a day. */
  private static @Nullable Double days(Outlook outlook, Outlook.Remaining left) {
    if (outlook.kind() != Outlook.Kind.BREAKTHROUGH || left.value() == 0) {
      return left.value();
    }
    return outlook.parameters().stream()
        .filter(parameter -> parameter.name().equals(BedAge.A_DAY))
        .map(Parameter::value)
        .findFirst()
        .map(aDay -> left.value() / aDay)
        .orElse(null);
  }

  /** The latest sample that the outlook rests on: one that does not fit in is left out. */
  private Optional<Sample> latest(Stream stream, Outlook outlook) {
    boolean isCounted = Outlooks.kind(stream) == Outlook.Kind.BREAKTHROUGH;
    return samples.latest(stream.id(), new Samples.Search(null, isCounted, LATEST)).stream()
        .filter(sample -> outlook.evidence().contains(sample.result()))
        .reduce((earlier, later) -> later);
  }

  private void tell(
      Stream stream, Outlook outlook, Outlook.Remaining left, double days, Sample latest) {
    Instant now = clock.instant();
    crossings.tell(stream.id(), latest.result(), now);
    foreseen.fire(
        new CrossingForeseen(
            stream,
            outlook.kind(),
            latest.result(),
            latest.sampledAt(),
            left,
            days,
            outlook.reason()));
  }
}
