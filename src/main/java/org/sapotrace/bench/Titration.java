package org.sapotrace.bench;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A titration for one result, as it was typed.
 *
 * @param analyst who titrated; null where nobody said
 * @param readings what was read
 */
public record Titration(
    String batch, Instant sampledAt, @Nullable String analyst, Readings readings) implements Entry {

  @Override
  public @Nullable String titrantLot() {
    return readings.titrant().lot();
  }
}
