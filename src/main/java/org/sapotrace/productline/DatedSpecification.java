package org.sapotrace.productline;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;

/**
 * A specification and the day from which it holds.
 *
 * @param limits what the product must meet; null where from that day on nothing is specified
 * @param from first day, UTC, inclusive; null for ever since
 */
public record DatedSpecification(@Nullable Specification limits, @Nullable LocalDate from) {

  boolean holdsOn(LocalDate day) {
    return from == null || !day.isBefore(from);
  }
}
