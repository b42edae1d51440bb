package org.sapotrace.bench.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;

/** The glassware that a titration may name. */
@Path("/api/v1/glassware")
@Produces(MediaType.APPLICATION_JSON)
class GlasswareResource {

  /** A piece of glassware in the interface's words. */
  record GlasswareView(
      String glassware,
      String kind,
      String accuracyClass,
      double capacityMl,
      double graduationMl,
      double toleranceMl,
      double endPointMl,
      String source,
      String mark) {

    static GlasswareView of(Glassware glassware) {
      return new GlasswareView(
          glassware.slug(),
          glassware.kind().label(),
          glassware.accuracyClass(),
          glassware.capacityMl(),
          glassware.graduationMl(),
          glassware.toleranceMl(),
          glassware.endPointMl(),
          glassware.source(),
          glassware.mark());
    }
  }

  @GET
  @Requires(Scope.READ)
  public Response list(@BeanParam PageRequest page, @Context UriInfo uri) {
    return Page.ofFixed(Glassware.forTitrant(), page, "glassware", Glassware::slug)
        .map(GlasswareView::of)
        .answer(uri);
  }
}
