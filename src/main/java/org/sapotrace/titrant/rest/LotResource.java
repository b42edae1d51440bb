package org.sapotrace.titrant.rest;

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
import org.sapotrace.productline.ProductLines;
import org.sapotrace.titrant.TitrantLot;
import org.sapotrace.titrant.Titrants;

/** The titrant lots. */
@Path("/api/v1/titrants")
@Produces(MediaType.APPLICATION_JSON)
class LotResource {

  private static final String LIST = "titrants";

  private final Titrants titrants;

  LotResource(Titrants titrants) {
    this.titrants = titrants;
  }

  @PUT
  @Requires(Scope.RECORD)
  @Consumes(MediaType.APPLICATION_JSON)
  @Path("/{lot}")
  public Response put(
      @Slug String lot,
      @NotNull @Valid NewLot body,
      @Context Request request,
      @Context UriInfo uri) {
    ProductLines.Put<TitrantLot> put =
        titrants.put(body.toDeclaration(lot), current -> require(request, current));
    Response.ResponseBuilder answer =
        put.created() ? Response.created(uri.getAbsolutePath()) : Response.ok();
    return answer
        .entity(LotView.of(put.value()))
        .tag(Preconditions.tag(put.value().version()))
        .build();
  }

  @GET
  @Requires(Scope.READ)
  @Path("/{lot}")
  public Response get(@Slug String lot, @Context Request request) {
    TitrantLot found = titrants.lot(lot);
    return Preconditions.answer(
        request, Preconditions.tag(found.version()), () -> LotView.of(found));
  }

  @GET
  @Requires(Scope.READ)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    Cursor after = page.after(LIST);
    List<TitrantLot> found = titrants.lotsAfter(after == null ? "" : after.key(), page.size() + 1);
    return Page.of(found, page.size(), LIST, LotResource::place).map(LotView::of).answer(uri);
  }

  private static Cursor place(TitrantLot lot) {
    return new Cursor(lot.declared().slug(), lot.declared().slug());
  }

  private static void require(Request request, @Nullable TitrantLot current) {
    Preconditions.require(request, current == null ? null : Preconditions.tag(current.version()));
  }
}
