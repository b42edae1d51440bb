package org.sapotrace.monitoring.rest;

import java.time.Instant;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.monitoring.PointSelection;

/** Which points a chart is asked for, and by which limits they were judged. */
public final class PointQuery {

  @RestQuery @Nullable Integer last;

  @RestQuery @Nullable Instant from;
  @RestQuery @Nullable Instant to;

  @RestQuery @Nullable Integer limitsRevision;

  PointSelection selection() {
    if (last != null && (from != null || to != null)) {
      throw bad("Ask for last, or for from and to, but not for both.");
    }
    if (last != null && last < 1) {
      throw bad("last must be a whole number of at least 1.");
    }
    if (from != null && to != null && from.isAfter(to)) {
      throw bad(
          "from (%s) is later than to (%s): name an earlier from, or a later to."
              .formatted(from, to));
    }
    return new PointSelection(last, from, to);
  }

  @Nullable Integer limitsRevision() {
    return limitsRevision;
  }

  private static RuntimeException bad(String detail) {
    return Problem.of(ProblemType.BAD_PARAMETER, detail).asException();
  }
}
