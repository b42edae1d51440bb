package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.enterprise.event.Observes;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.ResultsRecorded;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.productline.Stream;
import org.sapotrace.washmodel.Forecast.Parameter;

/*
 * It runs in the transaction that records, under the stream's lock, once for all that is recorded
 * together. Towers are foreseen by what goes through, which the rate of late turns into days. What
 * counts is the estimate and not an end of its interval: the lower end would tell of almost every
 * young trend, and the upper end of a breakthrough too late to act. Between one horizon and one and a
 * half nothing changes, so that scatter about the horizon does not tell twice.
 */
/** Tells whoever wants to know when a forecast comes close to its limit. */
@ApplicationScoped
class CrossingWatch {

  private static final double AWAY = 1.5;

  private final Outlooks outlooks;
  private final Samples samples;
  private final Crossings crossings;
  private final ForecastHorizon horizon;
  private final InstantSource clock;
  private final Event<CrossingForeseen> foreseen;

  CrossingWatch(
      Outlooks outlooks,
      Samples samples,
      Crossings crossings,
      ForecastHorizon horizon,
      InstantSource clock,
      Event<CrossingForeseen> foreseen) {
    this.outlooks = outlooks;
    this.samples = samples;
    this.crossings = crossings;
    this.horizon = horizon;
    this.clock = clock;
    this.foreseen = foreseen;
  }

  void watch(@Observes ResultsRecorded recorded) {
    Stream stream = recorded.stream();
    if (isWatched(stream)) {
      Outlook outlook = outlooks.of(stream, WashPlan.ONE_STAGE);
      Outlook.Remaining left = outlook.remaining();
      Double days = left == null ? null : days(outlook, left);
      boolean isTold = crossings.isTold(stream.id());
      if (left != null && days != null && days <= horizon.days() && !isTold) {
        latest(stream)
            .filter(sample -> !recorded.hindsight().covers(sample.sampledAt()))
            .ifPresent(sample -> tell(stream, outlook, left, days, sample));
      } else if (isTold && (days == null || days > AWAY * horizon.days())) {
        crossings.forget(stream.id());
      }
    }
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

  private Optional<Sample> latest(Stream stream) {
    boolean isCounted = Outlooks.kind(stream) == Outlook.Kind.BREAKTHROUGH;
    List<Sample> latest = samples.latest(stream.id(), new Samples.Search(null, isCounted, 1));
    return latest.stream().findFirst();
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
