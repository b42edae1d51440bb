package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.time.InstantSource;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.TurnedNonconforming;
import org.sapotrace.forecast.CrossingForeseen;
import org.sapotrace.monitoring.LimitsAdopted;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.SignalLapsed;
import org.sapotrace.monitoring.SignalRaised;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.titrant.LeavingTolerance;

/*
 * Each of these runs in the transaction that records what it tells of, under the stream's lock:
 * there is no result without its notice, and no notice of what was rolled back.
 */
/** Makes notices of what happens. */
@ApplicationScoped
class Notifier {

  private final ProductLines productLines;
  private final Outbox outbox;
  private final NoticeText text;
  private final Addresses addresses;
  private final InstantSource clock;

  Notifier(
      ProductLines productLines,
      Outbox outbox,
      NoticeText text,
      Addresses addresses,
      InstantSource clock) {
    this.productLines = productLines;
    this.outbox = outbox;
    this.text = text;
    this.addresses = addresses;
    this.clock = clock;
  }

  /** Trial limits are nobody's word, and what is found in hindsight nobody can act on any more. */
  void tell(@Observes SignalRaised raised) {
    if (!raised.isHindsight() && raised.limits().status() == LimitsRevision.Status.ADOPTED) {
      add(
          raised.stream(),
          NoticeType.SIGNAL_RAISED,
          raised.signal().id(),
          text.of(raised.stream(), raised.signal(), raised.at().batch()));
    }
  }

  /** Whoever was told of a signal is told that it does not hold, and nobody else. */
  void tell(@Observes SignalLapsed lapsed) {
    UUID signal = lapsed.signal().id();
    if (outbox.isTold(lapsed.stream().id(), NoticeType.SIGNAL_RAISED, signal)) {
      add(
          lapsed.stream(),
          NoticeType.SIGNAL_LAPSED,
          signal,
          text.ofLapsed(lapsed.stream(), lapsed.signal()));
    }
  }

  void tell(@Observes TurnedNonconforming turned) {
    if (!turned.isHindsight()) {
      add(
          turned.stream(),
          NoticeType.VERDICT_NONCONFORMING,
          turned.result().id(),
          text.of(turned.stream(), turned.result()));
    }
  }

  void tell(@Observes LimitsAdopted adopted) {
    add(
        adopted.stream(),
        NoticeType.LIMITS_ADOPTED,
        null,
        text.of(adopted.stream(), adopted.limits()));
  }

  void tell(@Observes LeavingTolerance leaving) {
    Stream strength = productLines.stream(leaving.stream()).orElseThrow();
    add(
        strength,
        NoticeType.TITRANT_LEAVING_TOLERANCE,
        leaving.standardisation(),
        text.of(strength, leaving));
  }

  void tell(@Observes CrossingForeseen crossing) {
    add(crossing.stream(), NoticeType.FORECAST_CROSSING, crossing.result(), text.of(crossing));
  }

  private void add(Stream stream, NoticeType type, @Nullable UUID about, Tidings tidings) {
    outbox.add(
        new Notice(
            productLines.nextIdentifier(stream.id()),
            stream.id(),
            stream.line(),
            type,
            about,
            addresses.of(stream),
            tidings.links().record(),
            clock.instant(),
            tidings));
  }
}
