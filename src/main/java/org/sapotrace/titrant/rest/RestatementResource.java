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
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.SafeText;
import org.sapotrace.http.Slug;
import org.sapotrace.titrant.Restatement;
import org.sapotrace.titrant.Restater;

/** The restatements of a titrant lot. */
@Path("/api/v1/titrants/{lot}/restatements")
@Produces(MediaType.APPLICATION_JSON)
class RestatementResource {

  /**
   * What is to be restated.
   *
   * @param from when the first sample was taken (inclusive); null for all
   */
  record NewRestatement(@Nullable Instant from, @NotNull @SafeText(max = 1000) String reason) {}

  private final Restater restater;

  RestatementResource(Restater restater) {
    this.restater = restater;
  }

  @POST
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  public Response restate(@Slug String lot, @NotNull @Valid NewRestatement body) {
    Restatement restatement = restater.restate(lot, body.from(), body.reason());
    return Response.created(
            URI.create("/api/v1/titrants/%s/restatements/%s".formatted(lot, restatement.id())))
        .entity(restatement)
        .build();
  }

  @GET
  @Path("/{id}")
  public Restatement get(@Slug String lot, UUID id) {
    return restater.restatement(lot, id);
  }

  @GET
  public Response list(@Slug String lot, @BeanParam PageRequest page, @Context UriInfo uri) {
    String list = "restatements of " + lot;
    Cursor cursor = page.after(list);
    UUID after = cursor == null ? null : UUID.fromString(cursor.id());
    List<Restatement> found = restater.restatements(lot, after, page.size() + 1);
    return Page.of(found, page.size(), list, RestatementResource::place).answer(uri);
  }

  private static Cursor place(Restatement restatement) {
    return new Cursor(restatement.recordedAt().toString(), restatement.id().toString());
  }
}
