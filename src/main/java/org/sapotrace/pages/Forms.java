package org.sapotrace.pages;

import io.quarkus.qute.TemplateInstance;
import jakarta.inject.Singleton;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.net.URI;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sapotrace.productline.Line;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.titrant.Titrants;

/** What all forms have in common: how they are shown, known again, and answered. */
@Singleton
final class Forms {

  private static final String ROOM = "titrations";
  private static final String MORE = "more";
  private static final int MOST_LOTS = 100;

  private final FormToken tokens;
  private final SentOnce sentOnce;
  private final Titrants titrants;
  private final InstantSource clock;

  Forms(FormToken tokens, SentOnce sentOnce, Titrants titrants, InstantSource clock) {
    this.titrants = titrants;
    this.tokens = tokens;
    this.sentOnce = sentOnce;
    this.clock = clock;
  }

  /**
   * A form as it came back.
   *
   * @param asksForMore whether nothing is to be recorded yet, but one more titration to be typed
   */
  record Sent(
      MultivaluedMap<String, String> fields, Typed typed, int titrations, boolean asksForMore) {}

  /** What was sent, which must be a form of ours. */
  Sent receive(MultivaluedMap<String, String> sent, @Nullable String cookie) {
    FormToken.require(sent.getFirst(FormToken.NAME), cookie);
    Typed typed = new Typed(sent);
    boolean more = sent.containsKey(MORE);
    String room = typed.text(ROOM);
    int titrations = room.matches("[0-9]{1,2}") ? Integer.parseInt(room) : TitrationForm.USUAL;
    return new Sent(sent, typed, titrations + (more ? 1 : 0), more);
  }

  /** Batch and time of a sample that was taken just now. */
  SampleFields newSample() {
    return new SampleFields(WallClock.ofService(), null, clock.instant());
  }

  /** Batch and time of a sample on record. */
  SampleFields sampleOf(Instant sampledAt) {
    return new SampleFields(WallClock.ofService(), sampledAt, clock.instant());
  }

  /** The titrant lots on record, as many as help. */
  List<Field.Option> lots() {
    return titrants.lotsAfter("", MOST_LOTS).stream()
        .map(lot -> new Field.Option(lot.declared().slug(), lot.declared().reagent().id()))
        .toList();
  }

  void fillNow(Typed typed) {
    Instant now = clock.instant();
    typed.put(TitrationFields.SAMPLED_AT, WallClock.ofService().typed(now));
  }

  /** The head of a new form. */
  FormHead head(Line line, Stream stream, @Nullable String cookie, List<String> notes) {
    return FormHead.of(line, stream, tokens.of(cookie), UUID.randomUUID().toString(), notes);
  }

  /** The head of a form that is shown again: what is sent twice is known by its number. */
  FormHead head(Line line, Stream stream, @Nullable String cookie, Sent sent) {
    return FormHead.of(
        line, stream, tokens.of(cookie), sent.typed.text(SentOnce.NUMBER), List.of());
  }

  Response show(int status, FormHead head, EntryForm form, UriInfo uri) {
    TemplateInstance page =
        form instanceof TitrationForm titration
            ? Templates.titration(head, titration)
            : Templates.value(head, (ValueForm) form);
    return Response.status(status)
        .entity(page.render())
        .cookie(FormToken.cookie(head.token(), uri.getBaseUri().getScheme().equals("https")))
        .build();
  }

  /**
   * Carries out what a form says, once, and leads on to the result, so that loading the page again
   * sends nothing again.
   *
   * @param recording answers the identifier of the result
   * @return null where it was refused, which the form then says
   */
  @Nullable Response carryOut(Sent sent, EntryForm form, Supplier<UUID> recording) {
    try {
      UUID result = sentOnce.record(sent.fields, recording);
      return Response.seeOther(URI.create("/results/" + result)).build();
    } catch (Refusal refusal) {
      form.refuse(refusal);
      return null;
    }
  }
}
