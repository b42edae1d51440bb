package org.sapotrace.forecast;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Samples;
import org.sapotrace.bench.Samples.Sample;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.Measurand;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/*
 * That a tower was flushed shows by results of flush methanol; an event maintenance alone may be
 * anything. Of several towers, it is the one that the event names with which that flush began.
 */
/** Tells when a tower was flushed. */
@ApplicationScoped
class TowerFlushes {

  private static final int MOST = 30;

  /**
   * The last flush of a tower.
   *
   * @param at of its last sample; null if none is known
   * @param untold a later one, of which nobody said which tower it was; null for none
   */
  record Last(@Nullable Instant at, @Nullable Instant untold) {

    /** The same, and a sample of a flush of some tower. */
    private Last with(Instant sampledAt, @Nullable String flushed, String tower) {
      if (flushed == null) {
        return new Last(at, later(untold, sampledAt));
      }
      return flushed.equals(tower) ? new Last(later(at, sampledAt), untold) : this;
    }

    private static Instant later(@Nullable Instant known, Instant next) {
      return known != null && known.isAfter(next) ? known : next;
    }

    /** That somebody has to say which one it was. */
    List<String> notes() {
      return untold == null || (at != null && !untold.isAfter(at))
          ? List.of()
          : List.of(
              "The line has several towers, and nobody said which one was flushed on %s: if it is this one, record the event maintenance with which that flush began, naming the streams of the flush and of this tower alone."
                  .formatted(BedAge.day(untold)));
    }
  }

  private final ProductLines productLines;
  private final Logbook logbook;
  private final Samples samples;

  TowerFlushes(ProductLines productLines, Logbook logbook, Samples samples) {
    this.productLines = productLines;
    this.logbook = logbook;
    this.samples = samples;
  }

  /**
   * The last flush of a tower.
   *
   * @param since when its bed was new; null if nobody knows
   * @param until its latest sample
   */
  Last of(Stream tower, @Nullable Instant since, Instant until) {
    List<Stream> ofLine =
        productLines.streamsAfter(Objects.requireNonNull(tower.line()), "", Integer.MAX_VALUE);
    List<String> towers = ofLine.stream().filter(TowerFlushes::isTower).map(Stream::slug).toList();
    Last last = new Last(null, null);
    for (Stream flush : ofLine) {
      if (flush.samplingPoint() == SamplingPoint.FLUSH_METHANOL) {
        List<PlantEvent> begun = logbook.countingAnew(flush);
        for (Instant at : sampled(flush, since, until)) {
          last = last.with(at, flushed(towers, begun, at), tower.slug());
        }
      }
    }
    return last;
  }

  private List<Instant> sampled(Stream flush, @Nullable Instant since, Instant until) {
    return samples.latest(flush.id(), new Samples.Search(since, false, MOST)).stream()
        .map(Sample::sampledAt)
        .filter(at -> at.isBefore(until) && (since == null || at.isAfter(since)))
        .toList();
  }

  /** Which tower a sample was of; null if nobody said. */
  private static @Nullable String flushed(List<String> towers, List<PlantEvent> begun, Instant at) {
    List<String> named =
        begun.stream()
            .filter(event -> !event.at().isAfter(at))
            .reduce((earlier, later) -> later)
            .map(event -> towers.stream().filter(event.streams()::contains).toList())
            .filter(found -> !found.isEmpty())
            .orElse(towers);
    return named.size() == 1 ? named.get(0) : null;
  }

  private static boolean isTower(Stream stream) {
    return stream.samplingPoint() == SamplingPoint.AFTER_DRY_WASH
        && stream.measurand() == Measurand.SOAP;
  }
}
