package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Response;
import java.net.URI;
import java.util.UUID;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Correction;
import org.sapotrace.refusal.Refusal;

/** Single results, by their identifiers. */
@Path("/api/v1/results")
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

  @POST
  @Path("/{id}/corrections")
  public Response correct(UUID id, @NotNull @Valid NewCorrection body) {
    Correction correction = body.toCorrection();
    ResultView corrected =
        correction.change() instanceof Correction.Retitrated
            ? Refusal.within("titration", () -> ResultView.of(bench.correct(id, correction)))
            : ResultView.of(bench.correct(id, correction));
    return Response.created(URI.create("/api/v1/results/" + id)).entity(corrected).build();
  }
}
