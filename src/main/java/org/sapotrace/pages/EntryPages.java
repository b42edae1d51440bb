package org.sapotrace.pages;

import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.CookieParam;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.Produces;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.Titration;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.http.Slug;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** The form of a stream, and what is sent by it. */
@Path("/lines/{line}/streams/{stream}")
@Produces(MediaType.TEXT_HTML)
class EntryPages {

  private static final int REFUSED = 422;

  private final ProductLines productLines;
  private final Bench bench;
  private final Forms forms;

  EntryPages(ProductLines productLines, Bench bench, Forms forms) {
    this.productLines = productLines;
    this.bench = bench;
    this.forms = forms;
  }

  /**
   * An empty form.
   *
   * @param like a result of which titrant, blank, glassware and analyst are taken over
   */
  @GET
  @Requires(Scope.READ)
  public Response form(
      @Slug String line,
      @Slug String stream,
      @RestQuery @Nullable UUID like,
      @CookieParam(FormToken.NAME) @Nullable String cookie,
      @Context UriInfo uri) {
    Stream asked = productLines.stream(line, stream);
    if (asked.isKeptRemoval()) {
      throw Refusal.unknown(
          "Nothing is entered for %s: enter what was found before and behind the wash or tower, and it follows."
              .formatted(asked.name()));
    }
    Typed typed = new Typed();
    forms.fillNow(typed);
    List<String> notes = List.of();
    if (like != null
        && bench.result(like).result().latest().entered() instanceof Titration titration) {
      TitrationForm.fillTitrant(typed, titration);
      notes =
          List.of(
              "Titrant, blank, glassware and analyst are those of batch %s: check the bottle."
                  .formatted(titration.batch()));
    }
    return forms.show(
        Response.Status.OK.getStatusCode(),
        forms.head(productLines.line(line), asked, cookie, notes),
        form(typed, asked, TitrationForm.USUAL),
        uri);
  }

  @POST
  @Requires(Scope.RECORD)
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response record(
      @Slug String line,
      @Slug String stream,
      MultivaluedMap<String, String> fields,
      @CookieParam(FormToken.NAME) @Nullable String cookie,
      @Context UriInfo uri) {
    Forms.Sent sent = forms.receive(fields, cookie);
    Stream asked = productLines.stream(line, stream);
    EntryForm form = form(sent.typed(), asked, sent.titrations());
    if (!sent.asksForMore()) {
      Entry entry = form.read();
      Response done =
          entry == null
              ? null
              : forms.carryOut(sent, form, () -> bench.record(line, stream, entry).result().id());
      if (done != null) {
        return done;
      }
    }
    return forms.show(
        sent.asksForMore() ? Response.Status.OK.getStatusCode() : REFUSED,
        forms.head(productLines.line(line), asked, cookie, sent),
        form,
        uri);
  }

  private EntryForm form(Typed typed, Stream stream, int titrations) {
    return Words.isTitrated(stream.measurand())
        ? new TitrationForm(
            typed,
            stream.measurand(),
            stream.samplingPoint(),
            forms.newSample(),
            titrations,
            forms.lots())
        : new ValueForm(typed, stream, forms.newSample());
  }
}
