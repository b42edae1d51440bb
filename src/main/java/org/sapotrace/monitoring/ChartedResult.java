package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A result as a chart sees it.
 *
 * @param result its identifier
 * @param batch the batch it was found in
 * @param sampledAt when the sample was taken
 * @param value in the stream's unit; negative values stand as they are
 * @param standardUncertainty in the same unit; null where unknown
 * @param belowDetection whether the bench could not tell it from a blank
 */
public record ChartedResult(
    UUID result,
    String batch,
    Instant sampledAt,
    double value,
    @Nullable Double standardUncertainty,
    boolean belowDetection) {}
