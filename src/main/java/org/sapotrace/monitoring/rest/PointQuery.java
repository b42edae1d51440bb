package org.sapotrace.monitoring.rest;

import jakarta.validation.constraints.Min;
import java.time.Instant;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.monitoring.PointSelection;

/** Which points a chart is asked for, and by which limits they were judged. */
public final class PointQuery {

  @RestQuery
  @Min(1)
  @Nullable Integer last;

  @RestQuery @Nullable Instant from;
  @RestQuery @Nullable Instant to;

  @RestQuery
  @Min(1)
  @Nullable Integer limitsRevision;

  PointSelection selection() {
    if (last != null && (from != null || to != null)) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER, "Ask for last, or for from and to, but not for both.")
          .asException();
    }
    return new PointSelection(last, from, to);
  }

  @Nullable Integer limitsRevision() {
    return limitsRevision;
  }
}
