package org.sapotrace.productline.rest;

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
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.Logbook;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.PlantEvents;

/** What happened at a line of the plant. */
@Path("/api/v1/lines/{line}/events")
@Produces(MediaType.APPLICATION_JSON)
class LogbookResource {

  private final Logbook logbook;

  LogbookResource(Logbook logbook) {
    this.logbook = logbook;
  }

  @POST
  @Requires(Scope.RECORD)
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  public Response record(@Slug String line, @NotNull @Valid NewEvent body) {
    PlantEvent recorded = logbook.record(line, body.toEntry());
    return Response.created(URI.create("/api/v1/events/" + recorded.id())).entity(recorded).build();
  }

  @GET
  @Requires(Scope.READ)
  public Response list(
      @Slug String line,
      @RestQuery @Nullable Instant from,
      @RestQuery @Nullable Instant to,
      @BeanParam PageRequest page,
      @Context UriInfo uri) {
    String list = "events of %s from %s to %s".formatted(line, from, to);
    Cursor cursor = page.after(list);
    PlantEvents.Place after =
        cursor == null
            ? null
            : new PlantEvents.Place(Instant.parse(cursor.key()), UUID.fromString(cursor.id()));
    List<PlantEvent> found =
        logbook.events(line, new PlantEvents.Selection(from, to, after), page.size() + 1);
    return Page.of(found, page.size(), list, LogbookResource::place).answer(uri);
  }

  private static Cursor place(PlantEvent event) {
    return new Cursor(event.at().toString(), event.id().toString());
  }
}
