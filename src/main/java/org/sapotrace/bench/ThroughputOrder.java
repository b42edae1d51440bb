package org.sapotrace.bench;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Results.Place;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/*
 * What went through can only grow until it is counted anew. An entry that says less than the one
 * before it, or more than the one behind it, contradicts the record, whichever of the two is wrong:
 * it is refused rather than recorded with a caution, since the curve through both would be nonsense,
 * and since the way out is always open. Either the event that is missing is recorded, or the other
 * entry is corrected first, or this one comes without throughput.
 */
/** Whether what is said to have gone through goes with what else is on record of a stream. */
final class ThroughputOrder {

  private static final Comparator<Place> IN_ORDER =
      Comparator.comparing(Place::sampledAt).thenComparing(Place::result);

  /** What is known in one unit. */
  private record Count(
      String pointer,
      String unit,
      Function<Throughput, @Nullable Double> of,
      NavigableMap<Place, Double> known) {}

  private final List<Instant> restarts;
  private final String restartedBy;
  private final List<Count> counts =
      List.of(
          new Count("#/throughput/litres", "L", Throughput::litres, new TreeMap<>(IN_ORDER)),
          new Count(
              "#/throughput/bedVolumes",
              "bed volumes",
              Throughput::bedVolumes,
              new TreeMap<>(IN_ORDER)));
  private long added;

  /**
   * An order in which nothing is known yet.
   *
   * @param restarts when it was counted from 0 again
   * @param restartedBy what to record where it was counted anew
   */
  ThroughputOrder(List<Instant> restarts, String restartedBy) {
    this.restarts = List.copyOf(restarts);
    this.restartedBy = restartedBy;
  }

  /** The order of a stream of which nobody says what went through. */
  static ThroughputOrder none() {
    return new ThroughputOrder(List.of(), "");
  }

  /** Adds an entry that comes after all others of its time. */
  void add(Entry entry) {
    Throughput throughput = entry.throughput();
    if (throughput != null) {
      add(last(entry), throughput);
      added++;
    }
  }

  void add(Place place, Throughput throughput) {
    for (Count count : counts) {
      Double value = count.of.apply(throughput);
      if (value != null) {
        count.known.put(place, value);
      }
    }
  }

  /**
   * Checks an entry.
   *
   * @param result the result that it is a revision of; null for a new one
   * @throws Refusal if it goes back
   */
  void check(Entry entry, @Nullable UUID result) {
    Throughput throughput = entry.throughput();
    if (throughput == null) {
      return;
    }
    Place place = result == null ? last(entry) : new Place(entry.sampledAt(), result);
    for (Count count : counts) {
      Double value = count.of.apply(throughput);
      if (value != null) {
        check(count, value, place);
      }
    }
  }

  private void check(Count count, double value, Place place) {
    Map.Entry<Place, Double> before = count.known.lowerEntry(place);
    Map.Entry<Place, Double> after = count.known.higherEntry(place);
    if (before != null && isSameAge(before, place) && before.getValue() > value) {
      throw contradiction(count, value, before, "before");
    }
    if (after != null && isSameAge(after, place) && after.getValue() < value) {
      throw contradiction(count, value, after, "behind");
    }
  }

  private Refusal contradiction(
      Count count, double value, Map.Entry<Place, Double> other, String where) {
    return Refusal.impossible(
        count.pointer,
        "What went through only grows: %s %s here, and %s at the sample of %s %s it. Check both, or record %s first."
            .formatted(
                Rounding.of(value),
                count.unit,
                Rounding.of(other.getValue()),
                other.getKey().sampledAt(),
                where,
                restartedBy));
  }

  private boolean isSameAge(Map.Entry<Place, Double> other, Place place) {
    return age(other.getKey().sampledAt()) == age(place.sampledAt());
  }

  /** How often it had been counted anew; who is sampled at that moment belongs to what begins. */
  private long age(Instant at) {
    return restarts.stream().filter(restart -> !restart.isAfter(at)).count();
  }

  /** Behind all that is on record of that time, whose identifiers tell the time of recording. */
  private Place last(Entry entry) {
    return new Place(entry.sampledAt(), new UUID(Long.MAX_VALUE, added));
  }
}
