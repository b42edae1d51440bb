package org.sapotrace.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.NavigableMap;
import java.util.TreeMap;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.OwnReplicates.Determined;
import org.sapotrace.bench.OwnReplicates.Search;
import org.sapotrace.chemistry.Repeatability;

/** The sets of replicates that entries are compared by, while these are assessed. */
final class ReplicateHistory {

  /** From so many sets on, a stream's own repeatability is relied on. */
  static final int FEWEST_SETS = 10;

  /** Older sets tell of another bench: other hands, another scale. */
  private static final int MOST_SETS = 100;

  /** How far back sets are looked for among single titrations. */
  private static final int LOOKED = 500;

  private final NavigableMap<Instant, List<Determined>> sets;

  private ReplicateHistory(List<Determined> sets) {
    this.sets =
        sets.stream()
            .collect(
                Collectors.groupingBy(Determined::sampledAt, TreeMap::new, Collectors.toList()));
  }

  /** Nothing to compare by. */
  static ReplicateHistory none() {
    return new ReplicateHistory(List.of());
  }

  /**
   * What samples of that time are compared by.
   *
   * @param first time of sampling
   * @param last time of sampling, not before the first
   */
  static ReplicateHistory from(OwnReplicates replicates, UUID stream, Instant first, Instant last) {
    // One more, for a result that is left out of its own comparison.
    List<Determined> all =
        new ArrayList<>(
            replicates.latest(stream, new Search(null, first, 2, LOOKED, MOST_SETS + 1)));
    if (first.equals(last)) {
      return new ReplicateHistory(all);
    }
    all.addAll(
        replicates.latest(
            stream, new Search(first, last, 2, Integer.MAX_VALUE, Integer.MAX_VALUE)));
    return new ReplicateHistory(all.stream().distinct().toList());
  }

  /** Takes what was just recorded into account. */
  void add(RecordedResult result) {
    if (result.latest().entered() instanceof Titration titration) {
      List<Double> values = result.latest().assessment().result().replicates();
      if (values.size() > 1) {
        sets.computeIfAbsent(result.sampledAt(), time -> new ArrayList<>())
            .add(
                new Determined(
                    result.id(), result.batch(), result.sampledAt(), titration.analyst(), values));
      }
    }
  }

  /**
   * How far titrations of the samples up to that time have scattered; null where too few tell.
   *
   * @param except a result that says nothing about itself; null for none
   */
  Repeatability.@Nullable Pooled pooled(Instant sampledAt, @Nullable UUID except) {
    List<List<Double>> latest =
        sets.headMap(sampledAt, true).descendingMap().values().stream()
            .flatMap(List::stream)
            .filter(each -> !each.result().equals(except))
            .limit(MOST_SETS)
            .map(Determined::values)
            .toList();
    if (latest.size() < FEWEST_SETS) {
      return null;
    }
    Repeatability.Pooled pooled = Repeatability.pooled(latest);
    return pooled.sets() < FEWEST_SETS ? null : pooled;
  }
}
