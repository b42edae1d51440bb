package org.sapotrace.monitoring;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Keeps what people found out about signals. */
@ApplicationScoped
@Transactional
public class Findings {

  private final ProductLines productLines;
  private final Signals signals;
  private final Charts charts;
  private final Points points;
  private final Judgements judgements;
  private final InstantSource clock;

  Findings(
      ProductLines productLines,
      Signals signals,
      Charts charts,
      Points points,
      Judgements judgements,
      InstantSource clock) {
    this.productLines = productLines;
    this.signals = signals;
    this.charts = charts;
    this.points = points;
    this.judgements = judgements;
    this.clock = clock;
  }

  /**
   * Writes down what was found out about a signal, in the place of what was found before.
   *
   * @param precondition is shown the finding that holds, null where there is none, and throws where
   *     the caller wants nothing changed
   * @return the signal as it is then
   * @throws Refusal if there is no such signal, or a result cannot be left out because of it
   */
  public Signal put(UUID id, NewFinding found, Consumer<@Nullable Finding> precondition) {
    // Held before it is read, so that it cannot grow meanwhile.
    Optional<Stream> held = signals.streamOf(id).flatMap(productLines::lock);
    Signal signal = charts.signal(id);
    Finding current = signal.finding();
    precondition.accept(current);
    Finding next = found.numbered(current == null ? 1 : current.number() + 1, clock.instant());
    refuseForeign(held.orElseThrow(), signal, found.exclude());
    if (current != null && current.saysTheSameAs(next)) {
      return signal;
    }
    signals.explain(signal, next);
    return signal.explained(next);
  }

  /** A result is left out because of a signal only where the signal may be about it. */
  private void refuseForeign(Stream stream, Signal signal, List<UUID> excluded) {
    Instant from = excluded.isEmpty() ? signal.openedAt() : earliest(signal);
    Set<UUID> named = new HashSet<>();
    for (int i = 0; i < excluded.size(); i++) {
      UUID result = excluded.get(i);
      Place place = points.ofResult(signal.stream(), result).map(Point::place).orElse(null);
      if (place == null || place.sampledAt().isBefore(from) || signal.end().isBefore(place)) {
        throw Refusal.impossible(
            "#/exclude/%d".formatted(i),
            "Result %s is none that the signal may be about: name results of stream %s, sampled from %s to %s."
                .formatted(result, stream.slug(), from, signal.lastSampledAt()));
      }
      if (!named.add(result)) {
        throw Refusal.impossible(
            "#/exclude/%d".formatted(i), "This result is left out twice. Name it once.");
      }
    }
  }

  /** The earliest sample that may lie behind the change, or that was in the first window. */
  private Instant earliest(Signal signal) {
    Beginning start = signal.start();
    Instant change = Objects.requireNonNullElse(start.earliest(), start.at());
    return judgements.ofResults(signal.stream(), signal.firstWindow()).stream()
        .map(judged -> judged.point().result().sampledAt())
        .filter(sampledAt -> sampledAt.isBefore(change))
        .min(Instant::compareTo)
        .orElse(change);
  }
}
