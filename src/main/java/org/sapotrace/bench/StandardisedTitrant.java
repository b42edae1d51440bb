package org.sapotrace.bench;

import java.time.Instant;

/**
 * A standardisation of a titrant lot, as it was typed: a result of the lot's strength stream, whose
 * batch is the lot.
 *
 * @param lot the slug of the lot
 * @param performedAt when it was titrated
 * @param readings what was read
 */
public record StandardisedTitrant(String lot, Instant performedAt, StandardReadings readings)
    implements Entry {

  @Override
  public String batch() {
    return lot;
  }

  @Override
  public Instant sampledAt() {
    return performedAt;
  }
}
