package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Blanks;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.titrant.Titrants;

/** What is on record of the time around a signal. */
@ApplicationScoped
class Archive {

  private static final Duration BEFORE = Duration.ofDays(90);
  private static final int MOST = 20_000;

  /** As many withdrawn results running are looked behind. */
  private static final int MOST_WITHDRAWN = 20;

  private final ProductLines productLines;
  private final Results results;
  private final Blanks blanks;
  private final Titrants titrants;
  private final Logbook logbook;

  Archive(
      ProductLines productLines,
      Results results,
      Blanks blanks,
      Titrants titrants,
      Logbook logbook) {
    this.productLines = productLines;
    this.results = results;
    this.blanks = blanks;
    this.titrants = titrants;
    this.logbook = logbook;
  }

  /** The time that tells of a signal. */
  Series.Window window(Signal signal, Stream stream) {
    Instant change = signal.start().at();
    Instant latest = signal.start().latest();
    return new Series.Window(
        begin(stream, change),
        change,
        latest == null || latest.isBefore(change) ? change : latest,
        end(signal));
  }

  /**
   * Since when a stream tells of a change: not from before the phase that the change lies in. What
   * was taken off is the same with another titrant.
   */
  Instant begin(Stream stream, Instant change) {
    Instant begin = change.minus(BEFORE);
    Instant phase =
        Latest.of(
            logbook.beginningPhases(stream).stream()
                .filter(event -> !event.at().isAfter(change))
                .filter(
                    event ->
                        stream.measurand() != Measurand.REMOVAL
                            || event.kind() != PlantEvent.Kind.TITRANT_CHANGE)
                .toList());
    return phase != null && phase.isAfter(begin) ? phase : begin;
  }

  /**
   * Until when what was titrated tells of the signal: up to the first result that no longer
   * signals, since by then something may have been put right. Null where the signal goes on.
   */
  private @Nullable Instant end(Signal signal) {
    Results.Place last = new Results.Place(signal.lastSampledAt(), signal.lastResult());
    return results
        .select(signal.stream(), new Results.Selection(null, null, last), MOST_WITHDRAWN)
        .stream()
        .filter(next -> !next.latest().withdrawn())
        .findFirst()
        .map(next -> next.sampledAt().minus(1, ChronoUnit.MICROS))
        .map(end -> end.isBefore(signal.lastSampledAt()) ? signal.lastSampledAt() : end)
        .orElse(null);
  }

  /** What counts of a stream in that time. */
  List<RecordedResult> read(Stream stream, Series.Window window) {
    return results
        .select(stream.id(), new Results.Selection(window.from(), window.end(), null), MOST)
        .stream()
        .filter(result -> !result.latest().withdrawn())
        .toList();
  }

  /** The standardisations of a lot that count, from its first one on, in order of time. */
  List<RecordedResult> standardisations(String lot, Series.Window window) {
    return titrants.standardisations(lot, null, MOST).stream()
        .map(Titrants.Standardised::result)
        .filter(result -> !result.latest().withdrawn() && window.isNotOver(result.sampledAt()))
        .toList();
  }

  RecordedResult result(UUID id) {
    return results.result(id).orElseThrow();
  }

  /** The streams in which something was titrated with a lot in that time. */
  List<UUID> streamsTitratedWith(String lot, Series.Window window) {
    return results.streamsTitratedWith(lot, window.from());
  }

  /** What a line takes off where no blank is given with a sample, in mL. */
  double blankInUse(Stream stream, Instant sampledAt) {
    List<Double> latest = blanks.latest(String.valueOf(stream.line()), sampledAt, Blanks.MOST);
    return latest.size() < 2
        ? 0
        : latest.stream().mapToDouble(Double::doubleValue).average().orElseThrow();
  }

  Line line(Stream stream) {
    return productLines.line(String.valueOf(stream.line()));
  }
}
