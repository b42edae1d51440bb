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
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Bench;
import org.sapotrace.bench.Correction;
import org.sapotrace.bench.Corrections;
import org.sapotrace.bench.Entry;
import org.sapotrace.bench.MeasuredElsewhere;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Titration;
import org.sapotrace.http.Requires;
import org.sapotrace.http.Scope;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.refusal.Refusal;

/** Results, and the form by which one is corrected. */
@Path("/results/{id}")
@Produces(MediaType.TEXT_HTML)
class ResultPages {

  private static final int REFUSED = 422;

  private final ProductLines productLines;
  private final Bench bench;
  private final Corrections corrections;
  private final Charts charts;
  private final Forms forms;

  ResultPages(
      ProductLines productLines, Bench bench, Corrections corrections, Charts charts, Forms forms) {
    this.productLines = productLines;
    this.bench = bench;
    this.corrections = corrections;
    this.charts = charts;
    this.forms = forms;
  }

  @GET
  @Requires(Scope.READ)
  public String result(UUID id) {
    Bench.PlacedResult placed = ofALine(id);
    ShownChart chart = placed.control() == null ? null : ShownChart.of(placed, charts);
    return Templates.result(ResultPage.of(placed, lineOf(placed), chart, WallClock.ofService()))
        .render();
  }

  /** A form that holds all that is on record, with room for the titrations that are asked for. */
  @GET
  @Requires(Scope.READ)
  @Path("/correction")
  public Response correction(
      UUID id, @CookieParam(FormToken.NAME) @Nullable String cookie, @Context UriInfo uri) {
    Bench.PlacedResult placed = correctable(id);
    RecordedResult result = placed.result();
    Typed typed = new Typed();
    int titrations = TitrationForm.USUAL;
    if (result.latest().entered() instanceof Titration titration) {
      TitrationForm.fill(typed, titration, forms.sampleOf(result.sampledAt()));
      titrations =
          titration.readings().replicates().size() + ResultPage.more(result.latest().assessment());
    } else if (result.latest().entered() instanceof MeasuredElsewhere measured) {
      ValueForm.fill(typed, measured.values());
    }
    FormHead head = forms.head(lineOf(placed), placed.stream(), cookie, List.of());
    return forms.show(
        Response.Status.OK.getStatusCode(),
        head.correcting(id, result.batch(), result.latest().revision()),
        form(typed, placed, titrations),
        uri);
  }

  @POST
  @Requires(Scope.RECORD)
  @Path("/correction")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response correct(
      UUID id,
      MultivaluedMap<String, String> fields,
      @CookieParam(FormToken.NAME) @Nullable String cookie,
      @Context UriInfo uri) {
    Forms.Sent sent = forms.receive(fields, cookie);
    Bench.PlacedResult placed = correctable(id);
    EntryForm form = form(sent.typed(), placed, sent.titrations());
    if (!sent.asksForMore()) {
      Correction correction = read(form);
      Response done =
          correction == null
              ? null
              : forms.carryOut(sent, form, () -> correct(id, sent.typed(), correction));
      if (done != null) {
        return done;
      }
    }
    FormHead head = forms.head(lineOf(placed), placed.stream(), cookie, sent);
    return forms.show(
        sent.asksForMore() ? Response.Status.OK.getStatusCode() : REFUSED,
        head.correcting(id, placed.result().batch(), placed.result().latest().revision()),
        form,
        uri);
  }

  private static @Nullable Correction read(EntryForm form) {
    Correction.Change change = null;
    if (form instanceof ValueForm values) {
      List<Double> measured = values.readValues();
      change = measured == null ? null : new Correction.Remeasured(measured);
    } else {
      Entry entry = form.read();
      change = entry instanceof Titration titration ? new Correction.Retitrated(titration) : null;
    }
    String reason = form.readReason();
    return change == null || form.typed().isFaulty() ? null : new Correction(reason, change);
  }

  private UUID correct(UUID id, Typed typed, Correction correction) {
    String seen = typed.text("revision");
    return corrections
        .correct(
            id,
            correction,
            current -> {
              if (!seen.equals(String.valueOf(current.latest().revision()))) {
                throw Refusal.conflict(
                    "This result was corrected by someone else meanwhile. Look at it again before you send this once more.");
              }
            })
        .result()
        .id();
  }

  private Bench.PlacedResult ofALine(UUID id) {
    Bench.PlacedResult placed = bench.result(id);
    if (placed.stream().line() == null) {
      throw Refusal.unknown(
          "That is a standardisation of titrant lot %s, which has no page; read it through the interface."
              .formatted(placed.stream().slug()));
    }
    return placed;
  }

  private Bench.PlacedResult correctable(UUID id) {
    Bench.PlacedResult placed = ofALine(id);
    RecordedResult.Revision latest = placed.result().latest();
    if (placed.stream().isKeptRemoval()) {
      throw Refusal.conflict(
          "A removal follows from the results before and behind the wash or tower; correct those.");
    }
    if (latest.withdrawn()) {
      throw Refusal.conflict("This result was withdrawn; record the sample anew.");
    }
    if (latest.entered() instanceof Titration titration
        && titration.readings().replicates().size() > TitrationForm.MOST) {
      throw Refusal.conflict(
          "So many titrations do not fit on a page; correct this result through the interface.");
    }
    return placed;
  }

  private EntryForm form(Typed typed, Bench.PlacedResult placed, int titrations) {
    SampleFields sample = forms.sampleOf(placed.result().sampledAt());
    return placed.result().latest().entered() instanceof Titration
        ? new TitrationForm(
            typed,
            placed.stream().measurand(),
            placed.stream().samplingPoint(),
            sample,
            titrations,
            forms.lots())
        : new ValueForm(typed, placed.stream(), sample);
  }

  private Line lineOf(Bench.PlacedResult placed) {
    return productLines.line(Objects.requireNonNull(placed.stream().line()));
  }
}
