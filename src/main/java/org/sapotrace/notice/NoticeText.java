package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Assessment;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.chemistry.Verdict;
import org.sapotrace.controlchart.DriftRule;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.forecast.CrossingForeseen;
import org.sapotrace.forecast.Outlook;
import org.sapotrace.measure.Rounding;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Stream;
import org.sapotrace.titrant.LeavingTolerance;

/** Says what happened, and what somebody should do now. */
@ApplicationScoped
class NoticeText {

  private static final DateTimeFormatter MINUTE =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm 'UTC'").withZone(ZoneOffset.UTC);

  private final Addresses addresses;

  NoticeText(Addresses addresses) {
    this.addresses = addresses;
  }

  Tidings of(Stream stream, Signal signal, String batch) {
    return of(
        stream,
        signal,
        signal.text(),
        "Find what changed since about %s, before batch %s on, and put it right; the batch itself is released or held by its own verdict."
            .formatted(minute(signal.start().at()), batch));
  }

  Tidings ofLapsed(Stream stream, Signal signal) {
    return of(
        stream,
        signal,
        "No longer holds, as %s. It said: %s"
            .formatted(Objects.requireNonNull(signal.lapse()).reason(), signal.text()),
        "Do nothing further about this signal; if something was changed because of it, look whether that still makes sense.");
  }

  private Tidings of(Stream stream, Signal signal, String text, String advice) {
    return new Tidings.OfSignal(
        text,
        advice,
        stream.line(),
        stream.slug(),
        signal.id(),
        signal.rule().id(),
        signal.side().id(),
        signal.result(),
        signal.openedAt(),
        signal.start().at(),
        signal.limitsRevision(),
        new Tidings.Links(
            addresses.ofSignal(signal.id()),
            addresses.ofChart(stream, chart(stream, signal.rule()))));
  }

  /** The chart on which a signal is seen. */
  private static String chart(Stream stream, SignalRule rule) {
    if (rule instanceof DriftRule drift) {
      return drift == DriftRule.EWMA_BEYOND_LIMITS ? "ewma" : "cusum";
    }
    return stream.chart().resultsChart().id();
  }

  Tidings of(Stream stream, RecordedResult result) {
    RecordedResult.Revision latest = result.latest();
    Assessment found = latest.assessment();
    Verdict verdict = Objects.requireNonNull(found.verdict());
    return new Tidings.OfVerdict(
        "%s, batch %s, sampled %s, does not conform: %s %s, limit %s."
            .formatted(
                stream.name(),
                result.batch(),
                minute(result.sampledAt()),
                Rounding.of(found.result().value()),
                found.result().unit(),
                Rounding.of(verdict.limit())),
        verdict.reason(),
        stream.line(),
        stream.slug(),
        result.id(),
        latest.revision(),
        result.batch(),
        result.sampledAt(),
        found.result().value(),
        found.result().unit(),
        found.result().expandedUncertainty(),
        verdict.limit(),
        verdict.advice().id(),
        new Tidings.Links(
            addresses.ofResult(result.id()),
            addresses.ofChart(stream, stream.chart().resultsChart().id())));
  }

  Tidings of(Stream stream, LimitsRevision limits) {
    Double centre = limits.shown(limits.limits().centre());
    Double lower = limits.shown(limits.limits().lower());
    Double upper = limits.shown(limits.limits().upper());
    return new Tidings.OfLimits(
        "%s has control limits of revision %d: centre %s, lower %s, upper %s %s."
            .formatted(
                stream.name(),
                limits.revision(),
                figure(centre),
                figure(lower),
                figure(upper),
                stream.unit()),
        "From now on signals are raised by these limits: who reads the chart should know, and should know why.",
        stream.line(),
        stream.slug(),
        limits.revision(),
        centre,
        lower,
        upper,
        stream.unit(),
        limits.reason(),
        new Tidings.Links(
            addresses.ofLimits(stream, limits.revision()),
            addresses.ofChart(stream, stream.chart().resultsChart().id())));
  }

  Tidings of(Stream strength, LeavingTolerance leaving) {
    double lower = Objects.requireNonNull(leaving.tolerance().lower());
    double upper = Objects.requireNonNull(leaving.tolerance().upper());
    String found =
        "Titrant lot %s was found to be %s mol/L, where %s to %s mol/L are the tolerance"
            .formatted(
                leaving.lot(),
                Rounding.of(leaving.normality()),
                Rounding.of(lower),
                Rounding.of(upper));
    return new Tidings.OfTitrant(
        leaving.on() == null
            ? found + "."
            : "%s; by the line through its standardisations it leaves it on %s."
                .formatted(found, leaving.on()),
        leaving.on() == null
            ? "Check the standardisation, then prepare a new lot; results found with this one may be restated."
            : "Prepare a new lot before that day, or standardise this one again before it is used then.",
        leaving.lot(),
        leaving.normality(),
        lower,
        upper,
        leaving.on(),
        new Tidings.Links(addresses.of(strength), addresses.ofChart(strength, "individuals")));
  }

  Tidings of(CrossingForeseen crossing) {
    Stream stream = crossing.stream();
    Outlook.Remaining left = crossing.remaining();
    return new Tidings.OfForecast(
        "%s, counted from the sample of %s: the limit of %s is reached %s. %s"
            .formatted(
                stream.name(),
                minute(crossing.sampledAt()),
                stream.withUnit(Rounding.of(left.limit())),
                when(crossing),
                crossing.reason()),
        advice(crossing),
        stream.line(),
        stream.slug(),
        crossing.kind().id(),
        crossing.result(),
        crossing.sampledAt(),
        crossing.days(),
        left.quantity(),
        left.value(),
        left.lower(),
        left.upper(),
        left.unit(),
        left.limit(),
        new Tidings.Links(
            addresses.ofForecast(stream),
            addresses.ofChart(stream, stream.chart().resultsChart().id())));
  }

  private static String advice(CrossingForeseen crossing) {
    boolean isTower = crossing.kind() == Outlook.Kind.BREAKTHROUGH;
    if (crossing.remaining().value() == 0) {
      return "%s: what was released since conforms only if its own verdict says so."
          .formatted(
              isTower ? "Change over to a fresh bed now" : "Find what moved it, and act now");
    }
    return isTower
        ? "Have a fresh bed ready, and change over before that; take samples more often until then."
        : "Find what makes it move, and act before that day: what was released by then conforms only if its own verdict says so.";
  }

  private static String when(CrossingForeseen crossing) {
    Outlook.Remaining left = crossing.remaining();
    if (left.value() == 0) {
      return "already, by its latest results";
    }
    String days = "%s days".formatted(Rounding.of(crossing.days()));
    return crossing.kind() == Outlook.Kind.BREAKTHROUGH
        ? "after %s %s more, in some %s at the rate of late"
            .formatted(Rounding.of(left.value()), left.unit(), days)
        : "in %s".formatted(days);
  }

  private static String figure(@Nullable Double value) {
    return value == null ? "none" : Rounding.of(value);
  }

  private static String minute(Instant at) {
    return MINUTE.format(at);
  }
}
