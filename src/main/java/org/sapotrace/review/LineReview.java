package org.sapotrace.review;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.Stream;

/**
 * What is on record of a line in a period.
 *
 * @param streams with results in the period, in the order of their slugs
 * @param silent the streams without
 * @param lots that results of the period count with, in the order of their slugs
 * @param events of the period, in order of time
 */
record LineReview(
    Line line,
    Period period,
    List<StreamReview> streams,
    List<Stream> silent,
    List<LotReview> lots,
    List<PlantEvent> events) {

  /** When the last sample of the period was taken; null where none was. */
  @Nullable Instant lastSampledAt() {
    return streams.stream()
        .flatMap(stream -> stream.results().stream())
        .map(RecordedResult::sampledAt)
        .max(Comparator.naturalOrder())
        .orElse(null);
  }
}
