package org.sapotrace.monitoring.rest;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
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
    Instant raisedAt,
    List<UUID> firstWindow,
    UUID lastPoint,
    Instant lastPointAt,
    int count,
    int limitsRevision,
    String text,
    Signal.@Nullable Lapse lapse) {

  static SignalView of(Signal signal, Stream stream) {
    return new SignalView(
        signal.id(),
        stream.line(),
        stream.slug(),
        signal.rule(),
        signal.side(),
        signal.state(),
        signal.result(),
        signal.startedAt(),
        signal.raisedAt(),
        signal.firstWindow(),
        signal.lastResult(),
        signal.lastSampledAt(),
        signal.points(),
        signal.limitsRevision(),
        signal.text(),
        signal.lapse());
  }
}
