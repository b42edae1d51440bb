package org.sapotrace.forecast;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
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

  /** The relative standard uncertainty of a usual standardisation; common practice, no source. */
  private static final double OF_STANDARDISATIONS = 0.005;

  private final Series.Window window;
  private final Archive archive;
  private final Lots lots;
  private final Map<UUID, List<RecordedResult>> read = new HashMap<>();
  private final Map<UUID, RecordedResult> known = new HashMap<>();

  /**
   * Reads what is on record.
   *
   * @param titrated the stream in question and those beside it, whose titrant lots are looked at
   */
  Surroundings(Series.Window window, Archive archive, List<Stream> titrated) {
    this.window = window;
    this.archive = archive;
    lots =
        Lots.of(
            titrated.stream().flatMap(each -> results(each).stream()).toList(), window.change());
  }

  Lots lots() {
    return lots;
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
    return new Titrated(kind, ofPhase(stream), archive.line(stream), lots).in(window);
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
        found.latest().assessment().result().value() - lots.offBasis(inlet) + lots.offBasis(outlet),
        Math.hypot(Titrated.relativeRepeatability(inlet), Titrated.relativeRepeatability(outlet)),
        Result.ratio(Lots.moving(inlet, line), Lots.moving(outlet, line)));
  }

  /**
   * How far blanks were from what was taken off on either side of the change: where each titration
   * takes off its own, a blank that shifts moves nothing.
   *
   * @param taking the stream whose titrations take it off
   */
  Series blanks(Stream blank, Stream taking) {
    double before = takenOff(taking, at -> at.isBefore(window.change()));
    double behind = takenOff(taking, at -> !at.isBefore(window.change()));
    List<Series.Point> points =
        ofPhase(blank).stream()
            .map(Surroundings::asItIs)
            .map(
                point ->
                    new Series.Point(
                        point.at(),
                        point.value() - (point.at().isBefore(window.change()) ? before : behind),
                        point.repeatability(),
                        Map.of()))
            .toList();
    return new Series(Kind.BLANK, window, points, 0);
  }

  /**
   * What titrations took off on the mean, in mL. Those without a blank of their own took off the
   * line's, which is looked up for the middle one.
   */
  private double takenOff(Stream taking, Predicate<Instant> when) {
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
    return own.stream().mapToDouble(Double::doubleValue).average().orElse(0);
  }

  /**
   * How far a lot was from what it was used as. Each standardisation puts that right, so those
   * before the change tell that it was right, and those behind it are compared with what it was
   * taken for there. Where none lies before, they are compared with a lot that is right.
   *
   * @param takenFor in mol/L
   */
  Series standardisations(String lot, double takenFor) {
    List<Series.Point> points = new ArrayList<>();
    for (RecordedResult result : archive.standardisations(lot, window)) {
      Figure figure = result.latest().assessment().result();
      boolean isBefore = result.sampledAt().isBefore(window.change());
      points.add(
          new Series.Point(
              result.sampledAt(),
              isBefore ? 0 : Math.log(figure.value() / takenFor),
              Titrated.relativeRepeatability(result),
              Result.strengthOf(lot)));
    }
    if (points.isEmpty() || !points.get(0).at().isBefore(window.change())) {
      points.add(0, new Series.Point(window.from(), 0, OF_STANDARDISATIONS, Map.of()));
    }
    return new Series(Kind.STANDARDISATION, window, points, 0);
  }
}
