package org.sapotrace.forecast;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Result;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.productline.Stream;

/** Streams in the time around a change, each on the scale on which shifts add up. */
final class Surroundings {

  /** The relative standard uncertainty of a usual standardisation; common practice, no source. */
  private static final double OF_STANDARDISATIONS = 0.005;

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

  private RecordedResult result(UUID id) {
    return known.computeIfAbsent(id, archive::result);
  }

  /** Soap, wherever it was titrated. */
  Series soap(Stream stream, Kind kind) {
    return new Titrated(kind, results(stream), archive.line(stream)).in(window);
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
    List<Series.Point> points =
        results(removal).stream()
            .filter(result -> result.latest().entered() instanceof BatchRemoval)
            .map(result -> removal(result, (BatchRemoval) result.latest().entered(), outlet))
            .toList();
    return new Series(Kind.REMOVAL, window, points, blankEffect);
  }

  private Series.Point removal(RecordedResult found, BatchRemoval sides, Stream outlet) {
    RecordedResult inlet = result(sides.inlet());
    RecordedResult behind = result(sides.outlet());
    Titrated titrated = new Titrated(Kind.REMOVAL, List.of(), archive.line(outlet));
    return new Series.Point(
        found.sampledAt(),
        found.latest().assessment().result().value(),
        Math.hypot(Titrated.relativeRepeatability(inlet), Titrated.relativeRepeatability(behind)),
        Result.ratio(titrated.titrant(inlet), titrated.titrant(behind)));
  }

  /**
   * How far blanks were from what was taken off for them: where each titration takes off its own, a
   * blank that shifts moves nothing.
   *
   * @param taking the stream whose titrations take it off
   */
  Series blanks(Stream blank, Stream taking) {
    List<Series.Point> points = new ArrayList<>();
    for (RecordedResult result : results(blank)) {
      Figure figure = result.latest().assessment().result();
      Double u = figure.standardUncertainty();
      points.add(
          new Series.Point(
              result.sampledAt(),
              figure.value() - takenOff(taking, result.sampledAt()),
              u == null ? Double.NaN : u,
              Map.of()));
    }
    return new Series(Kind.BLANK, window, points, 0);
  }

  /** What the next titration took off, or the last where none follows; 0 where there is none. */
  private double takenOff(Stream taking, Instant at) {
    RecordedResult next = null;
    for (RecordedResult result : results(taking)) {
      if (result.latest().entered() instanceof Titration
          && (next == null || next.sampledAt().isBefore(at))) {
        next = result;
      }
    }
    if (next == null || !(next.latest().entered() instanceof Titration titration)) {
      return 0;
    }
    Double own = titration.readings().blankMl();
    return own == null ? archive.blankInUse(taking, next.sampledAt()) : own;
  }

  /**
   * What each lot was taken for that the streams in question were titrated with, in mol/L: in the
   * result that signalled, or else in the first behind the change.
   */
  Map<String, Double> lotsInUse(UUID signalled, List<Stream> streams) {
    Map<String, Double> normality = new LinkedHashMap<>();
    RecordedResult result = result(signalled);
    if (result.latest().entered() instanceof BatchRemoval sides) {
      use(result(sides.outlet()), normality);
      use(result(sides.inlet()), normality);
    } else {
      use(result, normality);
    }
    for (Stream stream : streams) {
      results(stream).stream()
          .filter(each -> !each.sampledAt().isBefore(window.change()))
          .forEach(each -> use(each, normality));
    }
    return normality;
  }

  private static void use(RecordedResult result, Map<String, Double> normality) {
    UsedTitrant used = result.latest().assessment().titrant();
    if (used != null) {
      normality.putIfAbsent(used.lot(), used.normality());
    }
  }

  /**
   * How far a lot was from what it was used as. Each standardisation puts that right, so those
   * before the change tell that it was right, and those behind it are compared with what it was
   * taken for. Where none lies before, the lot is taken to have been right when it came into use.
   *
   * @param normality that it was taken for behind the change, in mol/L
   */
  Series standardisations(String lot, double normality) {
    Map<String, Integer> strength = Result.strengthOf(lot);
    List<Series.Point> points = new ArrayList<>();
    for (RecordedResult result : archive.standardisations(lot, window)) {
      Titrated.logarithm(result, strength)
          .map(point -> against(normality, point))
          .ifPresent(points::add);
    }
    if (points.isEmpty() || !points.get(0).at().isBefore(window.change())) {
      points.add(0, new Series.Point(window.from(), 0, OF_STANDARDISATIONS, strength));
    }
    return new Series(Kind.STANDARDISATION, window, points, 0);
  }

  private Series.Point against(double normality, Series.Point found) {
    boolean isBefore = found.at().isBefore(window.change());
    double value = isBefore ? 0 : found.value() - Math.log(normality);
    return new Series.Point(found.at(), value, found.repeatability(), found.titrants());
  }
}
