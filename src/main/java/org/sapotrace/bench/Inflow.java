package org.sapotrace.bench;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/** Entries that came together, each of which is taken or refused by itself. */
final class Inflow {

  private final List<Entry> entries;
  private final @Nullable Refusal[] refused;

  /** The entries as they came; samples whose time cannot be are refused. */
  Inflow(List<Entry> entries, Instant now) {
    this.entries = entries;
    this.refused = new Refusal[entries.size()];
    take(entry -> SamplingTime.check(entry, now));
  }

  /** Those not refused so far, in the order of sampling, so that none is late and judged twice. */
  private List<Integer> inOrder() {
    return IntStream.range(0, entries.size())
        .filter(i -> refused[i] == null)
        .boxed()
        .sorted(Comparator.comparing(i -> entries.get(i).sampledAt()))
        .toList();
  }

  /** The titrations among those not refused so far, in the order of sampling. */
  List<Entry> titrations() {
    return inOrder().stream().map(entries::get).filter(Titration.class::isInstance).toList();
  }

  /** Shows those not refused so far to whoever takes or refuses them, in the order of sampling. */
  void take(Consumer<Entry> taker) {
    for (int i : inOrder()) {
      try {
        taker.accept(entries.get(i));
      } catch (Refusal refusal) {
        refused[i] = refusal;
      }
    }
  }

  /** Why each was refused, in the order in which they came. */
  List<Optional<Refusal>> refusals() {
    List<Optional<Refusal>> all = new ArrayList<>();
    for (Refusal refusal : refused) {
      all.add(Optional.ofNullable(refusal));
    }
    return all;
  }
}
