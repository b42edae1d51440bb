package org.sapotrace.bench;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** What somebody or something entered, as it was typed. */
public sealed interface Entry
    permits Titration, MeasuredElsewhere, StandardisedTitrant, BatchRemoval {

  String batch();

  /** When the sample was taken. */
  Instant sampledAt();

  /** The titrant lot on record that was titrated with; null where none was. */
  default @Nullable String titrantLot() {
    return null;
  }

  /** What had gone through a tower or a flush by then; null where nobody said. */
  default @Nullable Throughput throughput() {
    return null;
  }
}
