package org.sapotrace.bench.rest;

import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import java.util.UUID;
import org.sapotrace.bench.Bench;

/** Single results, by their identifiers. */
@Path("/api/v1/results")
@Produces(MediaType.APPLICATION_JSON)
class ResultResource {

  private final Bench bench;

  ResultResource(Bench bench) {
    this.bench = bench;
  }

  @GET
  @Path("/{id}")
  public RereadView get(UUID id) {
    return RereadView.of(bench.result(id));
  }
}
