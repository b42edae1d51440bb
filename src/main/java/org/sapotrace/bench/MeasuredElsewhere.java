package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A result that was measured elsewhere, as it was typed; null for what was not given.
 *
 * @param values in the stream's unit; the result is their mean
 * @param expandedUncertainty of the result, in the same unit
 * @param coverageFactor by which the expanded uncertainty exceeds the standard uncertainty
 * @param source where the value comes from
 */
public record MeasuredElsewhere(
    String batch,
    Instant sampledAt,
    List<Double> values,
    @Nullable Double expandedUncertainty,
    @Nullable Double coverageFactor,
    @Nullable String source)
    implements Entry {

  public MeasuredElsewhere {
    values = List.copyOf(values);
  }

  /** The same with other values. */
  MeasuredElsewhere withValues(List<Double> others) {
    return new MeasuredElsewhere(
        batch, sampledAt, others, expandedUncertainty, coverageFactor, source);
  }
}
