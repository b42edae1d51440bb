package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.UUID;

/**
 * Where a result stands in the order of its stream: by the time of sampling, then in the order of
 * recording, which is that of the identifiers.
 *
 * @param sampledAt when the sample was taken
 * @param result the result's identifier
 */
record Place(Instant sampledAt, UUID result) implements Comparable<Place> {

  @Override
  public int compareTo(Place other) {
    int inTime = sampledAt.compareTo(other.sampledAt);
    return inTime != 0 ? inTime : compareUnsigned(result, other.result);
  }

  boolean isBefore(Place other) {
    return compareTo(other) < 0;
  }

  /** As the database orders identifiers: byte by byte, without a sign. */
  private static int compareUnsigned(UUID one, UUID other) {
    int high = Long.compareUnsigned(one.getMostSignificantBits(), other.getMostSignificantBits());
    return high != 0
        ? high
        : Long.compareUnsigned(one.getLeastSignificantBits(), other.getLeastSignificantBits());
  }
}
