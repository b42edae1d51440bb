package org.sapotrace.ledger.rest;

import jakarta.ws.rs.BeanParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
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
import org.sapotrace.ledger.Archive;
import org.sapotrace.ledger.Entries;
import org.sapotrace.ledger.Verification;

/** The record of who changed what. */
@Path("/api/v1/ledger")
@Produces(MediaType.APPLICATION_JSON)
class LedgerResource {

  private final Archive archive;

  LedgerResource(Archive archive) {
    this.archive = archive;
  }

  @GET
  @Requires(Scope.REVIEW)
  public Response list(
      @RestQuery @Slug @Nullable String line,
      @RestQuery @Slug @Nullable String stream,
      @BeanParam PageRequest page,
      @Context UriInfo uri) {
    if (stream != null && line == null) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER, "stream needs line: a stream is named within its line.")
          .asException();
    }
    String list = "ledger of %s and %s".formatted(line, stream);
    List<Entries.Read> found =
        archive.after(place(page.after(list)), line, stream, page.size() + 1);
    return Page.of(found, page.size(), list, LedgerResource::cursor).map(EntryView::of).answer(uri);
  }

  @GET
  @Requires(Scope.REVIEW)
  @Path("/verification")
  public Verification verification() {
    return archive.verification();
  }

  private static Cursor cursor(Entries.Read read) {
    return new Cursor(read.head() + "/" + read.entry().seq(), read.entry().chain());
  }

  private static Entries.@Nullable Place place(@Nullable Cursor cursor) {
    if (cursor == null) {
      return null;
    }
    String[] numbers = cursor.key().split("/", 2);
    return new Entries.Place(Long.parseLong(numbers[0]), cursor.id(), Long.parseLong(numbers[1]));
  }
}
