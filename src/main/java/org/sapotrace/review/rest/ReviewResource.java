package org.sapotrace.review.rest;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import java.time.Instant;
import java.util.Arrays;
import java.util.concurrent.Semaphore;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chartimage.PaperSize;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.review.Period;
import org.sapotrace.review.Reviews;

/** The review document of a line. As the ledger does, it tells who changed what. */
@Path("/api/v1/lines/{line}/review.pdf")
class ReviewResource {

  /** All results of a review are in memory at once. */
  private static final int AT_ONCE = 2;

  private final Reviews reviews;
  private final Semaphore room = new Semaphore(AT_ONCE);

  ReviewResource(Reviews reviews) {
    this.reviews = reviews;
  }

  @GET
  @Requires(Scope.REVIEW)
  @Produces("application/pdf")
  public Response get(
      @Slug String line,
      @RestQuery @Nullable Instant from,
      @RestQuery @Nullable Instant to,
      @RestQuery @DefaultValue("a4") String paper,
      @Context Request request) {
    PaperSize size = size(paper);
    Period period = period(line, from, to);
    if (!room.tryAcquire()) {
      throw Problem.of(
              ProblemType.UNAVAILABLE, "Other reviews are being written: try again shortly.")
          .asException();
    }
    try {
      byte[] document = reviews.of(line, period).pdf(size);
      return Preconditions.answer(request, Preconditions.tag(document), () -> document);
    } finally {
      room.release();
    }
  }

  private Period period(String line, @Nullable Instant from, @Nullable Instant to) {
    try {
      return reviews.period(line, from, to);
    } catch (IllegalArgumentException noPeriod) {
      throw bad(String.valueOf(noPeriod.getMessage()));
    }
  }

  private static PaperSize size(String paper) {
    return Arrays.stream(PaperSize.values())
        .filter(size -> size.id().equals(paper))
        .findFirst()
        .orElseThrow(() -> bad("paper must be a4 or letter."));
  }

  private static RuntimeException bad(String detail) {
    return Problem.of(ProblemType.BAD_PARAMETER, detail).asException();
  }
}
