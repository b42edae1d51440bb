package org.sapotrace.bench.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.time.Instant;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.StreamPrecision;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;

/** The precision of a stream's titrations. */
@Path("/api/v1/lines/{line}/streams/{stream}/precision")
@Produces(MediaType.APPLICATION_JSON)
class PrecisionResource {

  private final StreamPrecision precision;

  PrecisionResource(StreamPrecision precision) {
    this.precision = precision;
  }

  @GET
  @Requires(Scope.READ)
  public PrecisionView get(
      @Slug String line,
      @Slug String stream,
      @RestQuery @Nullable Instant from,
      @RestQuery @Nullable Instant to) {
    return PrecisionView.of(line, precision.of(line, stream, from, to));
  }
}
