package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Place;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.Stream;

/*
 * What belongs together is a stream with its inlet: the crude before a wash, or whatever lies before
 * a tower. Of each such pair the inlet tells of the feed and the removal of the wash; the outlet
 * itself would say the same twice. Of other streams those count that were titrated with the same
 * lots.
 */
/** Gathers from the record what may tell what moved. */
@ApplicationScoped
class Gathering {

  private final Archive archive;
  private final Neighbours neighbours;

  Gathering(Archive archive, Neighbours neighbours) {
    this.archive = archive;
    this.neighbours = neighbours;
  }

  /** The evidence of the time around a signal of a stream. */
  Gathered around(Signal signal, Stream stream) {
    Series.Window window = archive.window(signal, stream);
    Around around = new Around(stream, window);
    return new Gathered(
        window.from(),
        around.shifted.evidence(around.place).orElse(null),
        around.shifted.before(),
        stream.measurand() != Measurand.REMOVAL,
        around.all(),
        around.shifted.measurement(),
        around.feed(),
        window.end() != null);
  }

  /** What its wash and feed are called. */
  private static Place place(Stream stream) {
    return new Place(String.valueOf(stream.line()), stream.slug());
  }

  private static Kind kind(Stream stream) {
    return switch (stream.samplingPoint()) {
      case CHECK_STANDARD -> Kind.CHECK_STANDARD;
      case CRUDE -> Kind.CRUDE;
      default -> Kind.WASHED;
    };
  }

  /** Around one stream. */
  private final class Around {
    private final Stream stream;
    private final @Nullable Stream outlet;
    private final @Nullable Stream inlet;
    private final Place place;
    private final List<Stream> titrated;
    private final Series.Window window;
    private final Surroundings surroundings;
    private final Series shifted;

    Around(Stream stream, Series.Window window) {
      this.stream = stream;
      this.window = window;
      outlet = neighbours.outlet(stream);
      inlet = outlet == null ? neighbours.crude(stream) : neighbours.inlet(outlet);
      place = place(outlet == null ? stream : outlet);
      titrated = titrated();
      surroundings = new Surroundings(window, archive);
      shifted = shifted();
    }

    /** What was titrated of the stream and its feed, the stream first. */
    private List<Stream> titrated() {
      Stream behind = neighbours.behind(stream);
      return java.util.stream.Stream.of(behind == null ? stream : behind, outlet, inlet)
          .filter(Objects::nonNull)
          .distinct()
          .toList();
    }

    /** The stream in question; what lies before a wash or tower tells of its feed. */
    private Series shifted() {
      Stream behind = neighbours.behind(stream);
      if (behind != null) {
        return surroundings.removal(stream, outlet == null ? null : inlet, behind);
      }
      if (stream.measurand() == Measurand.REMOVAL) {
        return surroundings.removalFoundElsewhere(stream);
      }
      return surroundings.soap(stream, stream.equals(inlet) ? Kind.CRUDE : kind(stream));
    }

    /** The stream that stands for the feed of a tower, whose own feed is another; null for none. */
    @Nullable String feed() {
      return inlet == null || inlet.samplingPoint() == SamplingPoint.CRUDE ? null : inlet.slug();
    }

    List<Evidence> all() {
      List<Evidence> all = new ArrayList<>(own());
      List<Strength> strengths = surroundings.strengths(titrated);
      Set<UUID> sameLots = new HashSet<>();
      strengths.stream()
          .map(each -> each.used().lot())
          .distinct()
          .forEach(lot -> sameLots.addAll(archive.streamsTitratedWith(lot, window)));
      for (Line line : neighbours.lines()) {
        boolean isOwn = line.slug().equals(stream.line());
        neighbours.ofSoap(line.slug()).stream()
            .filter(each -> isOwn || sameLots.contains(each.id()))
            .filter(each -> !titrated.contains(each))
            .flatMap(each -> beside(each).stream())
            .forEach(all::add);
      }
      Stream inQuestion = titrated.get(0);
      for (Stream blank : neighbours.ofBlanks(String.valueOf(stream.line()))) {
        surroundings
            .blanks(blank, inQuestion)
            .flatMap(series -> series.evidence(Place.NONE))
            .ifPresent(all::add);
      }
      for (Series series : surroundings.standardisations(strengths, inQuestion)) {
        series.evidence(Place.NONE).ifPresent(all::add);
      }
      return all;
    }

    /** The feed and the removal as far as they tell what changed, or else the stream itself. */
    private List<Evidence> own() {
      List<Series> beside = new ArrayList<>();
      if (inlet != null) {
        beside.add(surroundings.soap(inlet, Kind.CRUDE));
      }
      if (outlet != null) {
        beside.add(surroundings.removal(neighbours.removal(outlet), inlet, outlet));
      }
      List<Evidence> own = new ArrayList<>();
      beside.stream()
          .filter(Series::isOnBothSides)
          .forEach(series -> series.evidence(place).ifPresent(own::add));
      boolean isKnown =
          own.stream().anyMatch(each -> each.kind() == shifted.kind())
              || (outlet != null && own.size() == 2);
      if (!isKnown) {
        shifted.evidence(place).ifPresent(own::add);
      }
      return own;
    }

    /** What another stream tells; the methanol of a flush changes by itself. */
    private Optional<Evidence> beside(Stream other) {
      if (other.samplingPoint() == SamplingPoint.FLUSH_METHANOL) {
        return Optional.empty();
      }
      Series soap = surroundings.soap(other, kind(other));
      if (other.samplingPoint() == SamplingPoint.CHECK_STANDARD) {
        return soap.evidence(Place.NONE);
      }
      Series series = soap;
      if (other.inlet() != null) {
        Series removal =
            surroundings.removal(neighbours.removal(other), neighbours.inlet(other), other);
        series = removal.isOnBothSides() ? removal : soap;
      }
      return series.isOnBothSides() ? series.evidence(place(other)) : Optional.empty();
    }
  }
}
