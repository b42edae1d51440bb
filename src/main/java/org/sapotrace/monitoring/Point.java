package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.UUID;

/**
 * A result in its place on the chart.
 *
 * @param position counting from 1, in the order of sampling, then of recording
 */
public record Point(int position, ChartedResult result) implements Comparable<Point> {

  @Override
  public int compareTo(Point other) {
    return compareTo(other.result.sampledAt(), other.result.result());
  }

  /** Compares this point with the one of another result. */
  int compareTo(Instant sampledAt, UUID otherResult) {
    int inTime = result.sampledAt().compareTo(sampledAt);
    return inTime != 0 ? inTime : compareUnsigned(result.result(), otherResult);
  }

  /** Whether the signal's condition held at this point. */
  boolean isCoveredBy(Signal signal) {
    return compareTo(signal.openedAt(), signal.result()) >= 0
        && compareTo(signal.lastSampledAt(), signal.lastResult()) <= 0;
  }

  /** As the database orders identifiers: byte by byte, without a sign. */
  private static int compareUnsigned(UUID one, UUID other) {
    int high = Long.compareUnsigned(one.getMostSignificantBits(), other.getMostSignificantBits());
    return high != 0
        ? high
        : Long.compareUnsigned(one.getLeastSignificantBits(), other.getLeastSignificantBits());
  }
}
