package org.sapotrace.monitoring;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A result that was left out of a baseline.
 *
 * @param cause why, in somebody's words
 * @param signal the signal whose finding left it out; null where whoever adopted the limits did
 */
public record Exclusion(UUID result, String cause, @Nullable UUID signal) {

  boolean isAmong(List<Point> points) {
    return points.stream().anyMatch(point -> point.result().result().equals(result));
  }

  /** Whether whoever adopted the limits named it. */
  boolean isNamed() {
    return signal == null;
  }
}
