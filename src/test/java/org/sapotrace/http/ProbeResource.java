package org.sapotrace.http;

import jakarta.validation.Valid;
import jakarta.validation.constraints.Max;
import jakarta.validation.constraints.NotEmpty;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Positive;
import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.PUT;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Request;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicLong;
import java.util.stream.IntStream;
import org.jboss.resteasy.reactive.RestPath;
import org.jboss.resteasy.reactive.RestQuery;

/**
 * Something of everything that resources do, for the tests of what goes wrong on the way to them.
 */
@Path("/probe")
public class ProbeResource {

  /** An enum that travels by its id. */
  public enum Finish {
    MATT("matt"),
    HIGH_GLOSS("high-gloss");

    private final String id;

    Finish(String id) {
      this.id = id;
    }

    public String id() {
      return id;
    }
  }

  /** A part of a body. */
  public record Item(@NotNull @Positive Double sizeMl, Double otherMl) {}

  /** A record that checks its own range. */
  public record Share(double fraction) {
    public Share {
      if (!(fraction >= 0 && fraction <= 1)) {
        throw new IllegalArgumentException("A share lies between 0 and 1, not at " + fraction);
      }
    }
  }

  /** A body of everything. */
  public record Body(
      @NotNull @SafeText(max = 20) String name,
      @SafeText(max = 200, multiline = true) String notes,
      @NotNull Finish finish,
      @NotNull Instant at,
      LocalDate on,
      UUID id,
      Boolean exact,
      @Max(9) Integer count,
      Share share,
      @NotEmpty List<@Valid Item> items,
      List<Double> values) {}

  private static final AtomicLong VERSION = new AtomicLong(1);

  @POST
  @Path("/bodies")
  @Consumes(MediaType.APPLICATION_JSON)
  public Body echo(@NotNull @Valid Body body) {
    return body;
  }

  @POST
  @Path("/rows")
  @Consumes("application/x-ndjson")
  public int rows(String body) {
    return body.length();
  }

  @GET
  @Path("/queries")
  public List<String> queries(
      @RestQuery Finish finish,
      @RestQuery Instant from,
      @RestQuery Boolean exact,
      @RestQuery @Max(9) Integer count,
      @RestQuery @Slug String line,
      @RestQuery List<String> tags) {
    return List.of(finish + " " + from + " " + exact + " " + count + " " + line + " " + tags);
  }

  @GET
  @Path("/things/{id}")
  public UUID thing(@RestPath UUID id) {
    return id;
  }

  @GET
  @Path("/text")
  @Produces("text/plain")
  public String text() {
    return "text";
  }

  @GET
  @Path("/failures/{failure}")
  public Response fail(@RestPath ProbeFailure failure) throws Exception {
    throw failure.make();
  }

  @GET
  @Path("/document")
  public Response document(@Context Request request) {
    return Preconditions.answer(
        request, Preconditions.tag(VERSION.get()), () -> List.of(VERSION.get()));
  }

  @PUT
  @Path("/document")
  public Response replace(@Context Request request, List<Integer> body) {
    Preconditions.require(request, Preconditions.tag(VERSION.get()));
    return Response.ok(body).tag(Preconditions.tag(VERSION.incrementAndGet())).build();
  }

  @PUT
  @Path("/absent")
  public List<Integer> create(@Context Request request, List<Integer> body) {
    Preconditions.require(request, null);
    return body;
  }

  @GET
  @Path("/pages")
  public Response pages(@BeanParam PageRequest page, @RestQuery String q, @Context UriInfo asked) {
    Cursor after = page.after("pages");
    int from = after == null ? 0 : Integer.parseInt(after.id()) + 1;
    List<Integer> found = IntStream.range(from, 250).limit(page.size() + 1L).boxed().toList();
    return Page.of(found, page.size(), "pages", n -> new Cursor("", String.valueOf(n)))
        .answer(asked);
  }
}
