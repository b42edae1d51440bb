package org.sapotrace.monitoring.rest;

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
import java.util.List;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.RecordsOnce;
import org.sapotrace.http.Slug;
import org.sapotrace.monitoring.Limits;
import org.sapotrace.monitoring.LimitsRevision;

/** The control limits of a stream. */
@Path("/api/v1/lines/{line}/streams/{stream}/limits")
@Produces(MediaType.APPLICATION_JSON)
class LimitsResource {

  private final Limits limits;

  LimitsResource(Limits limits) {
    this.limits = limits;
  }

  @POST
  @RecordsOnce
  @Consumes(MediaType.APPLICATION_JSON)
  public Response adopt(
      @Slug String line,
      @Slug String stream,
      @NotNull @Valid LimitsRequest body,
      @Context UriInfo uri) {
    LimitsRevision adopted = limits.adopt(line, stream, body.toNewLimits());
    return Response.created(
            uri.getAbsolutePathBuilder().path(String.valueOf(adopted.revision())).build())
        .entity(LimitsView.of(adopted))
        .build();
  }

  @GET
  public Response list(
      @Slug String line, @Slug String stream, @BeanParam PageRequest page, @Context UriInfo uri) {
    String list = "limits of " + line + "/" + stream;
    Cursor after = page.after(list);
    int known = after == null ? 0 : Integer.parseInt(after.key());
    List<LimitsRevision> found =
        limits.of(line, stream).stream().skip(known).limit(page.size() + 1L).toList();
    return Page.of(found, page.size(), list, LimitsResource::place).map(LimitsView::of).answer(uri);
  }

  @GET
  @Path("/{revision}")
  public LimitsView get(@Slug String line, @Slug String stream, Integer revision) {
    return LimitsView.of(limits.of(line, stream, revision));
  }

  private static Cursor place(LimitsRevision limits) {
    String revision = String.valueOf(limits.revision());
    return new Cursor(revision, revision);
  }
}
