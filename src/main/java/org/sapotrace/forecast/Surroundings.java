package org.sapotrace.forecast;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.UUID;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;

/** Streams in the time around a change, each on the scale on which shifts add up. */
final class Surroundings {

  private final Series.Window window;
  private final Archive archive;
  private final Map<UUID, List<RecordedResult>> read = new HashMap<>();
  private final Map<UUID, RecordedResult> known = new HashMap<>();

  Surroundings(Series.Window window, Archive archive) {
    this.window = window;
    this.archive = archive;
  }

  private List<RecordedResult> results(Stream stream) {
    return read.computeIfAbsent(
        stream.id(),
        any -> {
          List<RecordedResult> results = archive.read(stream, window);
          results.forEach(each -> known.put(each.id(), each));
          return results;
        });
  }

  /** Those from the stream's own phase on. */
  private List<RecordedResult> ofPhase(Stream stream) {
    Instant begin = archive.begin(stream, window.change());
    return results(stream).stream().filter(each -> !each.sampledAt().isBefore(begin)).toList();
  }

  private RecordedResult result(UUID id) {
    return known.computeIfAbsent(id, archive::result);
  }

  /** Soap, wherever it was titrated. */
  Series soap(Stream stream, Kind kind) {
    return new Titrated(kind, ofPhase(stream), archive.line(stream)).in(window);
  }

  /** Removals that somebody else found and recorded as they are. */
  Series removalFoundElsewhere(Stream stream) {
    return new Series(
        Kind.REMOVAL, window, ofPhase(stream).stream().map(Surroundings::asItIs).toList(), 0);
  }

  private static Series.Point asItIs(RecordedResult result) {
    Figure figure = result.latest().assessment().result();
    Double u = figure.standardUncertainty();
    return new Series.Point(
        result.sampledAt(), figure.value(), u == null ? Double.NaN : u, Map.of());
  }

  /**
   * What a wash or tower takes off, with what its sides were titrated with.
   *
   * @param inlet null where it was taken away since
   */
  Series removal(Stream removal, @Nullable Stream inlet, Stream outlet) {
    double blankEffect =
        soap(outlet, Kind.WASHED).blankEffect()
            - (inlet == null ? 0 : soap(inlet, Kind.CRUDE).blankEffect());
    Line line = archive.line(outlet);
    List<Series.Point> points = new ArrayList<>();
    for (RecordedResult found : ofPhase(removal)) {
      if (found.latest().entered() instanceof BatchRemoval sides) {
        points.add(removal(found, result(sides.inlet()), result(sides.outlet()), line));
      }
    }
    return new Series(Kind.REMOVAL, window, points, blankEffect);
  }

  private Series.Point removal(
      RecordedResult found, RecordedResult inlet, RecordedResult outlet, Line line) {
    return new Series.Point(
        found.sampledAt(),
        found.latest().assessment().result().value(),
        Math.hypot(Titrated.relativeRepeatability(inlet), Titrated.relativeRepeatability(outlet)),
        Result.ratio(Lots.moving(inlet, line), Lots.moving(outlet, line)));
  }

  /**
   * How far blanks were from what was taken off on either side of the change: where each titration
   * takes off its own, a blank that shifts moves nothing. Empty where titrations lie on one side
   * alone.
   *
   * @param taking the stream whose titrations take it off
   */
  Optional<Series> blanks(Stream blank, Stream taking) {
    OptionalDouble before = takenOff(taking, at -> at.isBefore(window.change()));
    OptionalDouble behind = takenOff(taking, at -> !at.isBefore(window.change()));
    if (before.isPresent() != behind.isPresent()) {
      return Optional.empty();
    }
    List<Series.Point> points = new ArrayList<>();
    for (RecordedResult result : ofPhase(blank)) {
      Series.Point point = asItIs(result);
      double off = (point.at().isBefore(window.change()) ? before : behind).orElse(0);
      points.add(
          new Series.Point(point.at(), point.value() - off, point.repeatability(), Map.of()));
    }
    return Optional.of(new Series(Kind.BLANK, window, points, 0));
  }

  /**
   * What titrations took off on the mean, in mL; empty for none. Those without a blank of their own
   * took off the line's, which is looked up for the middle one.
   */
  private OptionalDouble takenOff(Stream taking, Predicate<Instant> when) {
    List<Double> own = new ArrayList<>();
    List<Instant> without = new ArrayList<>();
    for (RecordedResult result : ofPhase(taking)) {
      if (when.test(result.sampledAt())
          && result.latest().entered() instanceof Titration titration) {
        Double blank = titration.readings().blankMl();
        if (blank == null) {
          without.add(result.sampledAt());
        } else {
          own.add(blank);
        }
      }
    }
    if (!without.isEmpty()) {
      double ofLine = archive.blankInUse(taking, without.get(without.size() / 2));
      own.addAll(Collections.nCopies(without.size(), ofLine));
    }
    return own.stream().mapToDouble(Double::doubleValue).average();
  }

  /**
   * The lots that streams were titrated with, each as what it was taken for; those of earlier
   * phases too, since a removal reaches behind a titrant change.
   */
  List<Strength> strengths(List<Stream> titrated) {
    return Strength.of(titrated.stream().flatMap(each -> results(each).stream()).toList());
  }

  /** How far each of these was off, by its standardisations. */
  List<Series> standardisations(List<Strength> strengths, Stream inQuestion) {
    Instant unmoved =
        ofPhase(inQuestion).stream()
            .map(RecordedResult::sampledAt)
            .filter(at -> at.isBefore(window.change()))
            .max(Comparator.naturalOrder())
            .orElse(window.from());
    return strengths.stream()
        .flatMap(
            each ->
                each
                    .series(archive.standardisations(each.used().lot(), window), window, unmoved)
                    .stream())
        .toList();
  }
}
