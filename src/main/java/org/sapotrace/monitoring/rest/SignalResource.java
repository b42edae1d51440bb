package org.sapotrace.monitoring.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Cursor;
import org.sapotrace.http.Page;
import org.sapotrace.http.PageRequest;
import org.sapotrace.http.Problem;
import org.sapotrace.http.ProblemType;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;

/** The signals of all streams. */
@Path("/api/v1/signals")
@Produces(MediaType.APPLICATION_JSON)
class SignalResource {

  private final Charts charts;
  private final ProductLines productLines;

  SignalResource(Charts charts, ProductLines productLines) {
    this.charts = charts;
    this.productLines = productLines;
  }

  @GET
  @Requires(Scope.READ)
  public Response list(
      @RestQuery @Slug @Nullable String line,
      @RestQuery @Slug @Nullable String stream,
      @RestQuery Signal.@Nullable State state,
      @BeanParam PageRequest page,
      @Context UriInfo uri) {
    if (stream != null && line == null) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER, "stream needs line: a stream is named within its line.")
          .asException();
    }
    String list = "signals of %s/%s in %s".formatted(line, stream, state);
    Cursor cursor = page.after(list);
    UUID after = cursor == null ? null : UUID.fromString(cursor.id());
    List<Signal> found = charts.signalsAfter(after, line, stream, state, page.size() + 1);
    return Page.of(found, page.size(), list, SignalResource::place).map(this::view).answer(uri);
  }

  @GET
  @Requires(Scope.READ)
  @Path("/{id}")
  public SignalView get(UUID id) {
    return view(charts.signal(id));
  }

  private SignalView view(Signal signal) {
    Stream stream = productLines.stream(signal.stream()).orElseThrow();
    return SignalView.of(signal, stream);
  }

  private static Cursor place(Signal signal) {
    return new Cursor(signal.raisedAt().toString(), signal.id().toString());
  }
}
