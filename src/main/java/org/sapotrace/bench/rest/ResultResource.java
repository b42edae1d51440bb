package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.UUID;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Corrections;
import org.sapotrace.http.RecordsOnce;

/** Single results, by their identifiers. */
@Path("/api/v1/results")
@Produces(MediaType.APPLICATION_JSON)
class ResultResource {

  private final Bench bench;
  private final Corrections corrections;

  ResultResource(Bench bench, Corrections corrections) {
    this.bench = bench;
    this.corrections = corrections;
  }

  @GET
  @Path("/{id}")
  public RereadView get(UUID id) {
    return RereadView.of(bench.result(id));
  }

  @POST
  @RecordsOnce
  @Path("/{id}/corrections")
  @Consumes(MediaType.APPLICATION_JSON)
  public Response correct(UUID id, @NotNull @Valid NewCorrection body) {
    ResultView corrected =
        body.pointingInto(() -> ResultView.of(corrections.correct(id, body.toCorrection())));
    return Response.created(URI.create("/api/v1/results/" + id)).entity(corrected).build();
  }
}
