package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.UsedTitrant;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.titrant.Titrants;

/*
 * What belongs together is a stream with its inlet: the crude before a wash, or whatever lies before
 * a tower. Of each such pair the inlet tells of the feed and the removal of the wash; the outlet
 * itself would say the same twice. Streams count as far as they were titrated with the same lot.
 */
/** Gathers from the record what may tell what moved. */
@ApplicationScoped
class Gathering {

  private static final Duration BEFORE = Duration.ofDays(90);
  private static final int MOST = 20_000;

  /** The relative standard uncertainty of a usual standardisation; common practice, no source. */
  private static final double OF_STANDARDISATIONS = 0.005;

  private final ProductLines productLines;
  private final Results results;
  private final Titrants titrants;
  private final Logbook logbook;

  Gathering(ProductLines productLines, Results results, Titrants titrants, Logbook logbook) {
    this.productLines = productLines;
    this.results = results;
    this.titrants = titrants;
    this.logbook = logbook;
  }

  /** The evidence of the time around a signal of a stream. */
  Gathered around(Signal signal, Stream stream) {
    Instant change = signal.start().at();
    Instant end = end(signal);
    Around around = new Around(new Series.Window(begin(stream, change), change), end);
    Stream outlet = outlet(stream);
    Series shifted = around.shifted(stream, outlet);
    String name = name(outlet == null ? stream : outlet);
    List<Evidence> all = new ArrayList<>(outlet == null ? List.of() : around.pair(outlet));
    boolean isPairKnown = all.size() == 2;
    if (!isPairKnown && all.stream().noneMatch(each -> each.kind() == shifted.kind())) {
      shifted.evidence(name).ifPresent(all::add);
    }
    Used used = used(signal.result());
    all.addAll(around.reference(stream, used == null ? null : used.lot()));
    if (used != null) {
      all.addAll(around.otherLines(stream, used.lot()));
      around.standardisations(used).evidence("").ifPresent(all::add);
    }
    return new Gathered(
        around.window.from(),
        shifted.evidence(name).orElse(null),
        shifted.before(),
        stream.measurand() != Measurand.REMOVAL,
        all,
        shifted.measurement(),
        feed(outlet),
        end != null);
  }

  /**
   * Since when a stream tells of a change: not from before the phase that the change lies in. What
   * was taken off is the same with another titrant.
   */
  private Instant begin(Stream stream, Instant change) {
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
    return results.select(signal.stream(), new Results.Selection(null, null, last), 1).stream()
        .findFirst()
        .map(next -> next.sampledAt().minus(1, ChronoUnit.MICROS))
        .orElse(null);
  }

  /**
   * The titrant of a result.
   *
   * @param lot that it was titrated with
   * @param normality that it was calculated with, in mol/L
   */
  private record Used(String lot, double normality) {}

  /** That of a result, of a removal that of its outlet; null for none on record. */
  private @Nullable Used used(UUID id) {
    RecordedResult.Revision latest = results.result(id).orElseThrow().latest();
    if (latest.entered() instanceof BatchRemoval removal) {
      return used(removal.outlet());
    }
    UsedTitrant titrant = latest.assessment().titrant();
    return titrant == null ? null : new Used(titrant.lot(), titrant.normality());
  }

  /** The stream that stands for the feed of a tower, whose own feed is another; null for none. */
  private @Nullable String feed(@Nullable Stream outlet) {
    if (outlet == null) {
      return null;
    }
    Stream inlet =
        productLines.stream(String.valueOf(outlet.line()), String.valueOf(outlet.inlet()));
    return inlet.samplingPoint() == SamplingPoint.CRUDE ? null : inlet.slug();
  }

  /** The stream behind the wash or tower that a stream is on either side of; null for none. */
  private @Nullable Stream outlet(Stream stream) {
    String line = String.valueOf(stream.line());
    if (stream.isKeptRemoval()) {
      Stream outlet = productLines.stream(line, String.valueOf(stream.outlet()));
      return outlet.inlet() == null ? null : outlet;
    }
    if (stream.inlet() != null) {
      return stream;
    }
    return outlets(line).stream()
        .filter(each -> stream.slug().equals(each.inlet()))
        .findFirst()
        .orElse(null);
  }

  private List<Stream> outlets(String line) {
    return productLines.streamsAfter(line, "", Integer.MAX_VALUE).stream()
        .filter(stream -> stream.inlet() != null && !stream.isKeptRemoval())
        .toList();
  }

  /** What its wash or feed is called; nothing for a check standard, which has none. */
  private static String name(Stream stream) {
    return stream.samplingPoint() == SamplingPoint.CHECK_STANDARD
        ? ""
        : stream.line() + "/" + stream.slug();
  }

  private static Kind kind(Stream stream) {
    if (stream.measurand() == Measurand.REMOVAL) {
      return Kind.REMOVAL;
    }
    return switch (stream.samplingPoint()) {
      case CHECK_STANDARD -> Kind.CHECK_STANDARD;
      case BLANK -> Kind.BLANK;
      case CRUDE -> Kind.CRUDE;
      default -> Kind.WASHED;
    };
  }

  /** The record of the time around a change. */
  private final class Around {
    private final Series.Window window;
    private final @Nullable Instant end;
    private final Map<UUID, List<RecordedResult>> read = new HashMap<>();

    Around(Series.Window window, @Nullable Instant end) {
      this.window = window;
      this.end = end;
    }

    /** The stream in question; what lies before a wash or tower tells of its feed. */
    Series shifted(Stream stream, @Nullable Stream outlet) {
      if (outlet == null || stream.slug().equals(outlet.slug())) {
        return series(stream, kind(stream));
      }
      return stream.isKeptRemoval() ? removal(outlet) : series(stream, Kind.CRUDE);
    }

    private Series series(Stream stream, Kind kind) {
      List<RecordedResult> found = read.computeIfAbsent(stream.id(), any -> read(stream));
      Line line = productLines.line(String.valueOf(stream.line()));
      return new Titrated(kind, found, line).in(window);
    }

    private List<RecordedResult> read(Stream stream) {
      Instant begin = begin(stream, window.change());
      Instant from = begin.isAfter(window.from()) ? begin : window.from();
      return results.select(stream.id(), new Results.Selection(from, end, null), MOST);
    }

    /**
     * What lies before a wash or tower, and what it takes off, as far as they tell what changed.
     */
    List<Evidence> pair(Stream outlet) {
      return java.util.stream.Stream.of(inlet(outlet), removal(outlet))
          .filter(Series::isOnBothSides)
          .flatMap(series -> series.evidence(name(outlet)).stream())
          .toList();
    }

    private Series inlet(Stream outlet) {
      String line = String.valueOf(outlet.line());
      return series(productLines.stream(line, String.valueOf(outlet.inlet())), Kind.CRUDE);
    }

    private Series removal(Stream outlet) {
      Stream removal =
          productLines.removals(outlet).stream()
              .filter(each -> outlet.slug().equals(each.outlet()))
              .findFirst()
              .orElseThrow();
      double effect = series(outlet, Kind.WASHED).blankEffect() - inlet(outlet).blankEffect();
      List<Series.Point> points = series(removal, Kind.REMOVAL).points();
      return new Series(Kind.REMOVAL, window, points, effect);
    }

    /** Check standards of the same titrant, and the line's blanks. */
    List<Evidence> reference(Stream stream, @Nullable String lot) {
      Set<UUID> sameLot =
          lot == null ? Set.of() : new HashSet<>(results.streamsTitratedWith(lot, window.from()));
      List<Evidence> reference = new ArrayList<>();
      for (Line line : productLines.linesAfter("", Integer.MAX_VALUE)) {
        boolean isOwn = line.slug().equals(stream.line());
        for (Stream each : productLines.streamsAfter(line.slug(), "", Integer.MAX_VALUE)) {
          boolean isCheck =
              each.samplingPoint() == SamplingPoint.CHECK_STANDARD
                  && each.measurand() == Measurand.SOAP
                  && (isOwn || sameLot.contains(each.id()))
                  && !each.id().equals(stream.id());
          boolean isBlank =
              isOwn && each.samplingPoint() == SamplingPoint.BLANK && each.unit().equals("mL");
          if (isCheck || isBlank) {
            series(each, kind(each)).evidence("").ifPresent(reference::add);
          }
        }
      }
      return reference;
    }

    /** Other lines whose washes were titrated with the same lot. */
    List<Evidence> otherLines(Stream stream, String lot) {
      Set<UUID> sameLot = new HashSet<>(results.streamsTitratedWith(lot, window.from()));
      return productLines.linesAfter("", Integer.MAX_VALUE).stream()
          .filter(line -> !line.slug().equals(stream.line()))
          .flatMap(line -> outlets(line.slug()).stream())
          .filter(outlet -> sameLot.contains(outlet.id()))
          .flatMap(outlet -> pair(outlet).stream())
          .toList();
    }

    /**
     * How far a lot was from what it was used as. Each standardisation puts that right, so those
     * before the change tell that it was right, and those behind it are compared with what the
     * result that signalled was calculated with. Where none lies before, the lot is taken to have
     * been right when it came into use.
     */
    Series standardisations(Used used) {
      List<Series.Point> points = new ArrayList<>();
      for (Titrants.Standardised standardised : titrants.standardisations(used.lot, null, MOST)) {
        RecordedResult result = standardised.result();
        if (!result.latest().withdrawn() && (end == null || !result.sampledAt().isAfter(end))) {
          Titrated.logarithm(result).map(point -> against(used, point)).ifPresent(points::add);
        }
      }
      points.sort(Comparator.comparing(Series.Point::at));
      if (points.isEmpty() || !points.get(0).at().isBefore(window.change())) {
        points.add(0, new Series.Point(window.from(), 0, OF_STANDARDISATIONS));
      }
      return new Series(Kind.STANDARDISATION, window, points, 0);
    }

    private Series.Point against(Used used, Series.Point found) {
      boolean isBefore = found.at().isBefore(window.change());
      double value = isBefore ? 0 : found.value() - Math.log(used.normality);
      return new Series.Point(found.at(), value, found.standardUncertainty());
    }
  }
}
