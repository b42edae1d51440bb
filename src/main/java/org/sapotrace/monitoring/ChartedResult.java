package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Subgroup;

/**
 * A result as a chart sees it.
 *
 * @param result its identifier
 * @param batch the batch it was found in
 * @param sampledAt when the sample was taken
 * @param values in the stream's unit, several for a subgroup; negative values stand as they are
 * @param standardUncertainty of the result, in the same unit; null where unknown
 * @param belowDetection whether the bench could not tell it from a blank
 */
public record ChartedResult(
    UUID result,
    String batch,
    Instant sampledAt,
    Subgroup values,
    @Nullable Double standardUncertainty,
    boolean belowDetection) {

  /** The result: the arithmetic mean of its values. */
  public double value() {
    return values.mean();
  }

  /** What of it is looked at: its values, or the result as a single one. */
  Subgroup values(boolean asSubgroup) {
    return asSubgroup || values.size() == 1 ? values : Subgroup.of(value());
  }
}
