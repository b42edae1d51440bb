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
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Preconditions;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;

/** The product lines. */
@Path("/api/v1/lines")
@Produces(MediaType.APPLICATION_JSON)
class LineResource {

  private static final String LIST = "lines";

  private final ProductLines productLines;

  LineResource(ProductLines productLines) {
    this.productLines = productLines;
  }

  @PUT
  @Requires(Scope.REVIEW)
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/{line}")
  public Response put(
      @Slug String line,
      @NotNull @Valid NewLine body,
      @Context Request request,
      @Context UriInfo uri) {
    ProductLines.Put<Line> put =
        productLines.put(body.toLine(line), current -> require(request, current));
    Response.ResponseBuilder answer =
        put.created() ? Response.created(uri.getAbsolutePath()) : Response.ok();
    return answer
        .entity(LineView.of(put.value()))
        .tag(Preconditions.tag(put.value().version()))
        .build();
  }

  @GET
  @Requires(Scope.READ)
  @Path("/{line}")
  public Response get(@Slug String line, @Context Request request) {
    Line found = productLines.line(line);
    return Preconditions.answer(
        request, Preconditions.tag(found.version()), () -> LineView.of(found));
  }

  @GET
  @Requires(Scope.READ)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    Cursor after = page.after(LIST);
    List<Line> found = productLines.linesAfter(after == null ? "" : after.key(), page.size() + 1);
    return Page.of(found, page.size(), LIST, line -> new Cursor(line.slug(), line.slug()))
        .map(LineView::of)
        .answer(uri);
  }

  private static void require(Request request, @Nullable Line current) {
    Preconditions.require(request, current == null ? null : Preconditions.tag(current.version()));
  }
}
