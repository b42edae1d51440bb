package org.sapotrace.monitoring.rest;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.monitoring.Beginning;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Stream;

/** A signal as it is answered. */
record SignalView(
    UUID id,
    @Nullable String line,
    String stream,
    SignalRule rule,
    Side side,
    Signal.State state,
    UUID result,
    Instant startedAt,
    @Nullable Span startedWithin,
    Instant raisedAt,
    List<UUID> firstWindow,
    UUID lastPoint,
    Instant lastPointAt,
    int count,
    int limitsRevision,
    String text,
    Signal.@Nullable Lapse lapse,
    @Nullable FindingView finding) {

  /** The samples between which the change lies, with some confidence. */
  record Span(Instant from, Instant to) {

    static @Nullable Span of(Beginning start) {
      Instant from = start.earliest();
      Instant to = start.latest();
      return from == null || to == null ? null : new Span(from, to);
    }
  }

  static SignalView of(Signal signal, Stream stream) {
    return new SignalView(
        signal.id(),
        stream.line(),
        stream.slug(),
        signal.rule(),
        signal.side(),
        signal.state(),
        signal.result(),
        signal.start().at(),
        Span.of(signal.start()),
        signal.raisedAt(),
        signal.firstWindow(),
        signal.lastResult(),
        signal.lastSampledAt(),
        signal.points(),
        signal.limitsRevision(),
        signal.text(),
        signal.lapse(),
        signal.finding() == null ? null : FindingView.of(signal.finding()));
  }
}
