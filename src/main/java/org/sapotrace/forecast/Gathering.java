package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.bench.BatchRemoval;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
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
    Around around =
        new Around(
            new Series.Window(change.minus(BEFORE), change), end(signal), phaseEnd(signal, stream));
    Stream outlet = outlet(stream);
    Series shifted = around.shifted(stream, outlet);
    String name = name(outlet == null ? stream : outlet);
    List<Evidence> all = new ArrayList<>(outlet == null ? List.of() : around.pair(outlet));
    boolean isPairKnown = all.size() == 2;
    if (!isPairKnown && all.stream().noneMatch(each -> each.kind() == shifted.kind())) {
      shifted.evidence(name).ifPresent(all::add);
    }
    String lot = lot(signal.result());
    all.addAll(around.reference(stream, lot));
    if (lot != null) {
      all.addAll(around.otherLines(stream, lot));
      around.standardisations(lot).evidence("").ifPresent(all::add);
    }
    return new Gathered(
        around.window.from(),
        shifted.evidence(name).orElse(null),
        shifted.before(),
        stream.measurand() != Measurand.REMOVAL,
        all,
        shifted.measurement());
  }

  /** Until when the signal goes on: its last result, or for ever where that is the latest. */
  private @Nullable Instant end(Signal signal) {
    Results.Place last = new Results.Place(signal.lastSampledAt(), signal.lastResult());
    boolean isOver =
        !results.select(signal.stream(), new Results.Selection(null, null, last), 1).isEmpty();
    return isOver ? signal.lastSampledAt() : null;
  }

  /**
   * When the stream's next phase began, as it does once a fault is put right: what was titrated
   * since does not tell of the signal. Null where none has begun.
   */
  private @Nullable Instant phaseEnd(Signal signal, Stream stream) {
    return logbook.beginningPhases(stream).stream()
        .map(PlantEvent::at)
        .filter(at -> at.isAfter(signal.openedAt()))
        .findFirst()
        .orElse(null);
  }

  /** The lot that a result was titrated with, of a removal its outlet; null for none on record. */
  private @Nullable String lot(UUID result) {
    Entry entered = results.result(result).orElseThrow().latest().entered();
    return entered instanceof BatchRemoval removal ? lot(removal.outlet()) : entered.titrantLot();
  }

  /** The stream behind the wash or tower that a stream is on either side of; null for none. */
  private @Nullable Stream outlet(Stream stream) {
    String line = String.valueOf(stream.line());
    if (stream.isKeptRemoval()) {
      return productLines.stream(line, String.valueOf(stream.outlet()));
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
    private final @Nullable Instant phaseEnd;

    Around(Series.Window window, @Nullable Instant end, @Nullable Instant phaseEnd) {
      this.window = window;
      this.end = end;
      this.phaseEnd = phaseEnd;
    }

    /** The stream in question; what lies before a wash or tower tells of its feed. */
    Series shifted(Stream stream, @Nullable Stream outlet) {
      if (outlet == null || stream.slug().equals(outlet.slug())) {
        return series(stream, kind(stream), end);
      }
      return stream.isKeptRemoval() ? removal(outlet) : series(stream, Kind.CRUDE, end);
    }

    private Series series(Stream stream, Kind kind, @Nullable Instant until) {
      List<RecordedResult> found =
          results.select(stream.id(), new Results.Selection(window.from(), until, null), MOST);
      Line line = productLines.line(String.valueOf(stream.line()));
      return new Titrated(kind, found, line).in(window);
    }

    /** What lies before a wash or tower, and what it takes off. */
    List<Evidence> pair(Stream outlet) {
      List<Evidence> pair = new ArrayList<>();
      inlet(outlet).evidence(name(outlet)).ifPresent(pair::add);
      removal(outlet).evidence(name(outlet)).ifPresent(pair::add);
      return pair;
    }

    private Series inlet(Stream outlet) {
      String line = String.valueOf(outlet.line());
      return series(productLines.stream(line, String.valueOf(outlet.inlet())), Kind.CRUDE, end);
    }

    private Series removal(Stream outlet) {
      Stream removal =
          productLines.removals(outlet).stream()
              .filter(each -> outlet.slug().equals(each.outlet()))
              .findFirst()
              .orElseThrow();
      double effect = series(outlet, Kind.WASHED, end).blankEffect() - inlet(outlet).blankEffect();
      List<Series.Point> points = series(removal, Kind.REMOVAL, end).points();
      return new Series(Kind.REMOVAL, window, points, effect);
    }

    /** Check standards of the same titrant, and the line's blanks, all that the phase has. */
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
            series(each, kind(each), phaseEnd).evidence("").ifPresent(reference::add);
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

    Series standardisations(String lot) {
      List<Series.Point> points =
          titrants.standardisations(lot, null, MOST).stream()
              .map(Titrants.Standardised::result)
              .filter(result -> !result.latest().withdrawn())
              .filter(result -> phaseEnd == null || !result.sampledAt().isAfter(phaseEnd))
              .flatMap(result -> Titrated.logarithm(result).stream())
              .toList();
      return new Series(Kind.STANDARDISATION, window, points, 0);
    }
  }
}
