package org.sapotrace.bench;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.SamplingPoint;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.Stream;

/** Looks up what is on record around entries that say what went through. */
@ApplicationScoped
class ThroughputLog {

  // Later than any time of sampling on record.
  private static final Instant LATEST = Instant.parse("9999-12-31T00:00:00Z");

  private final Throughputs throughputs;
  private final Logbook logbook;

  ThroughputLog(Throughputs throughputs, Logbook logbook) {
    this.throughputs = throughputs;
    this.logbook = logbook;
  }

  /**
   * What entries of a stream are to go with; nothing is looked up where none of them says what went
   * through.
   *
   * @param except a result that one of them corrects; null for none
   */
  ThroughputOrder around(Stream stream, Collection<Entry> entries, @Nullable UUID except) {
    List<Instant> times =
        entries.stream()
            .filter(entry -> entry.throughput() != null)
            .map(Entry::sampledAt)
            // What lies outside is refused for its time.
            .filter(at -> !at.isBefore(SamplingTime.EARLIEST) && at.isBefore(LATEST))
            .sorted()
            .toList();
    if (times.isEmpty()) {
      return ThroughputOrder.none();
    }
    boolean isFlush = stream.samplingPoint() == SamplingPoint.FLUSH_METHANOL;
    ThroughputOrder order =
        new ThroughputOrder(
            logbook.countingAnew(stream).stream().map(PlantEvent::at).toList(),
            isFlush
                ? "the event maintenance with which another flush began"
                : "the event media-change with which the bed was new");
    throughputs
        .around(stream.id(), times.get(0), times.get(times.size() - 1), except)
        .forEach(
            each ->
                order.add(
                    new Results.Place(each.sampledAt(), each.result()),
                    new Throughput(each.litres(), each.bedVolumes())));
    return order;
  }
}
