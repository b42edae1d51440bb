package org.sapotrace.titrant.rest;

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
import org.sapotrace.bench.Results;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Slug;
import org.sapotrace.titrant.Titrants;

/** The standardisations of a titrant lot. */
@Path("/api/v1/titrants/{lot}/standardisations")
@Produces(MediaType.APPLICATION_JSON)
class StandardisationResource {

  private final Titrants titrants;

  StandardisationResource(Titrants titrants) {
    this.titrants = titrants;
  }

  @POST
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  public Response record(@Slug String lot, @NotNull @Valid NewStandardisation body) {
    StandardisationView recorded =
        StandardisationView.of(titrants.standardise(lot, body.performedAt(), body.readings()));
    return Response.created(URI.create("/api/v1/results/" + recorded.id()))
        .entity(recorded)
        .build();
  }

  @GET
  public Response list(@Slug String lot, @BeanParam PageRequest page, @Context UriInfo uri) {
    String list = "standardisations of " + lot;
    Cursor cursor = page.after(list);
    Results.Place after =
        cursor == null
            ? null
            : new Results.Place(Instant.parse(cursor.key()), UUID.fromString(cursor.id()));
    List<Titrants.Standardised> found = titrants.standardisations(lot, after, page.size() + 1);
    return Page.of(found, page.size(), list, StandardisationResource::place)
        .map(StandardisationView::of)
        .answer(uri);
  }

  private static Cursor place(Titrants.Standardised standardised) {
    return new Cursor(
        standardised.result().sampledAt().toString(), standardised.result().id().toString());
  }
}
