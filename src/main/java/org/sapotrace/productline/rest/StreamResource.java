package org.sapotrace.productline.rest;

import jakarta.validation.Valid;
import jakarta.validation.constraints.NotNull;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.InstantSource;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** The streams of a line. */
@Path("/api/v1/lines/{line}/streams")
@Produces(MediaType.APPLICATION_JSON)
class StreamResource {

  private final ProductLines productLines;
  private final InstantSource clock;

  StreamResource(ProductLines productLines, InstantSource clock) {
    this.productLines = productLines;
    this.clock = clock;
  }

  @PUT
  @Requires(Scope.REVIEW)
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/{stream}")
  public Response put(
      @Slug String line,
      @Slug String stream,
      @NotNull @Valid NewStream body,
      @Context Request request,
      @Context UriInfo uri) {
    ProductLines.Put<Stream> put =
        productLines.put(body.toDefinition(line, stream), current -> require(request, current));
    Response.ResponseBuilder answer =
        put.created() ? Response.created(uri.getAbsolutePath()) : Response.ok();
    return answer.entity(view(put.value())).tag(Preconditions.tag(put.value().version())).build();
  }

  @GET
  @Requires(Scope.READ)
  @Path("/{stream}")
  public Response get(@Slug String line, @Slug String stream, @Context Request request) {
    Stream found = productLines.stream(line, stream);
    return Preconditions.answer(request, Preconditions.tag(found.version()), () -> view(found));
  }

  @GET
  @Requires(Scope.READ)
  public Response list(@Slug String line, @BeanParam PageRequest page, @Context UriInfo uri) {
    String list = "streams of " + line;
    Cursor after = page.after(list);
    List<Stream> found =
        productLines.streamsAfter(line, after == null ? "" : after.key(), page.size() + 1);
    return Page.of(found, page.size(), list, stream -> new Cursor(stream.slug(), stream.slug()))
        .map(this::view)
        .answer(uri);
  }

  private StreamView view(Stream stream) {
    return StreamView.of(stream, LocalDate.ofInstant(clock.instant(), ZoneOffset.UTC));
  }

  private static void require(Request request, @Nullable Stream current) {
    Preconditions.require(request, current == null ? null : Preconditions.tag(current.version()));
  }
}
