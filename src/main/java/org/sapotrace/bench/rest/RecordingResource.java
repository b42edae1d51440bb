package org.sapotrace.bench.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.Results;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Slug;

/** Takes titrations and results for a stream, and lists them. */
@Path("/api/v1/lines/{line}/streams/{stream}")
@Produces(MediaType.APPLICATION_JSON)
class RecordingResource {

  private final Bench bench;

  RecordingResource(Bench bench) {
    this.bench = bench;
  }

  @POST
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/titrations")
  public Response titration(
      @Slug String line, @Slug String stream, @NotNull @Valid NewTitration body) {
    return record(line, stream, body.toEntry());
  }

  @POST
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/results")
  public Response result(@Slug String line, @Slug String stream, @NotNull @Valid NewResult body) {
    return record(line, stream, body.toEntry());
  }

  private Response record(String line, String stream, Entry entry) {
    ResultView recorded = ResultView.of(bench.record(line, stream, entry));
    return Response.created(URI.create("/api/v1/results/" + recorded.id()))
        .entity(recorded)
        .build();
  }

  @GET
  @Path("/results")
  public Response list(
      @Slug String line,
      @Slug String stream,
      @RestQuery @Nullable Instant from,
      @RestQuery @Nullable Instant to,
      @BeanParam PageRequest page,
      @Context UriInfo uri) {
    String list = "results of %s/%s from %s to %s".formatted(line, stream, from, to);
    Cursor cursor = page.after(list);
    Results.Place after =
        cursor == null
            ? null
            : new Results.Place(Instant.parse(cursor.key()), UUID.fromString(cursor.id()));
    List<Bench.PlacedResult> found =
        bench.results(line, stream, new Results.Selection(from, to, after), page.size() + 1);
    return Page.of(found, page.size(), list, RecordingResource::place)
        .map(ResultView::of)
        .answer(uri);
  }

  private static Cursor place(Bench.PlacedResult placed) {
    return new Cursor(placed.result().sampledAt().toString(), placed.result().id().toString());
  }
}
