package org.sapotrace.productline;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import java.time.Instant;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/**
 * Keeps a stream of removals for each stream with an inlet. All of this happens under the lock of
 * the line, which alone may hold two streams that are no removal streams.
 */
@ApplicationScoped
class RemovalStreams {

  private static final String ENDING = "-removal";
  private static final int LONGEST_SLUG = 63;
  private static final String INLET = "#/inlet";

  private final Streams streams;
  private final Event<ProductLines.InletChanged> inletChanged;

  RemovalStreams(Streams streams, Event<ProductLines.InletChanged> inletChanged) {
    this.streams = streams;
    this.inletChanged = inletChanged;
  }

  /**
   * Refuses a definition whose inlet cannot be one, and holds an inlet that can: what is recorded
   * there at this moment is then seen when the removals are derived.
   */
  void check(StreamDefinition definition, @Nullable Stream current) {
    if (current != null && current.isKeptRemoval()) {
      refuseOtherInlet(definition, current);
      return;
    }
    if (current == null) {
      refuseKeptByHand(definition);
    }
    if (definition.inlet() != null) {
      checkInlet(definition, definition.inlet());
    }
  }

  private static void refuseOtherInlet(StreamDefinition definition, Stream removal) {
    if (definition.inlet() != null && !definition.inlet().equals(removal.inlet())) {
      throw Refusal.impossible(
          INLET,
          "Stream %s is kept by the service: put the inlet of stream %s instead."
              .formatted(removal.slug(), removal.outlet()));
    }
  }

  private void refuseKeptByHand(StreamDefinition definition) {
    String slug = definition.slug();
    if (definition.measurand() == Measurand.REMOVAL && slug.endsWith(ENDING)) {
      String outlet = slug.substring(0, slug.length() - ENDING.length());
      if (streams.stream(definition.line(), outlet).isPresent()) {
        throw Refusal.conflict(
            "The service itself keeps the removal of stream %s: put that stream with its inlet, and %s is there."
                .formatted(outlet, slug));
      }
    }
  }

  private void checkInlet(StreamDefinition definition, String inlet) {
    if (definition.measurand() != Measurand.SOAP) {
      throw Refusal.impossible(
          INLET,
          "Removal is watched of soap, and this stream measures %s: leave inlet out."
              .formatted(definition.measurand().label()));
    }
    if (definition.slug().length() + ENDING.length() > LONGEST_SLUG) {
      throw Refusal.impossible(
          INLET,
          "The removal stream would be named %s%s, which is longer than %d characters: define this stream under a shorter name."
              .formatted(definition.slug(), ENDING, LONGEST_SLUG));
    }
    if (inlet.equals(definition.slug())) {
      throw Refusal.impossible(
          INLET, "A stream is not its own inlet: name the one before the wash or tower.");
    }
    Stream before =
        streams
            .lock(definition.line(), inlet)
            .orElseThrow(
                () ->
                    Refusal.impossible(
                        INLET,
                        "Line %s has no stream %s: put that one first."
                            .formatted(definition.line(), inlet)));
    if (before.measurand() != Measurand.SOAP) {
      throw Refusal.impossible(
          INLET,
          "Removal is watched of soap, and stream %s measures %s: name a stream of soap."
              .formatted(inlet, before.measurand().label()));
    }
    refuseCircle(definition, before);
  }

  private void refuseCircle(StreamDefinition definition, Stream before) {
    for (Stream each = before; each.inlet() != null; ) {
      if (each.inlet().equals(definition.slug())) {
        throw Refusal.impossible(
            INLET,
            "Stream %s lies behind this one already: a stream cannot be before and behind another."
                .formatted(before.slug()));
      }
      each = streams.stream(definition.line(), each.inlet()).orElseThrow();
    }
  }

  /**
   * Keeps the removal stream in step with its outlet, which has just been saved.
   *
   * @param before the outlet as it was; null where it is new
   */
  void keep(@Nullable Stream before, Stream outlet, Instant now) {
    if (outlet.measurand() != Measurand.SOAP) {
      return;
    }
    String slug = outlet.slug() + ENDING;
    Stream known = streams.lock(Objects.requireNonNull(outlet.line()), slug).orElse(null);
    boolean isOurs = known == null || outlet.slug().equals(known.outlet());
    if (outlet.inlet() == null && (known == null || !isOurs)) {
      return;
    }
    if (!isOurs) {
      throw Refusal.conflict(
          "Stream %s of line %s was defined as another one, and the removal of %s would be kept under that name: define %s under another name, or leave inlet out."
              .formatted(slug, outlet.line(), outlet.slug(), outlet.slug()));
    }
    Stream kept =
        known == null
            ? Stream.removal(RecordIdentifier.after(null, now), outlet, slug, nameFor(outlet))
            : known.following(outlet.inlet(), name(known, before, outlet));
    if (!kept.equals(known)) {
      streams.save(kept, now);
    }
    if (kept.inlet() != null && (known == null || !kept.inlet().equals(known.inlet()))) {
      inletChanged.fire(new ProductLines.InletChanged(kept));
    }
  }

  /** Follows the name of the outlet unless somebody gave the removal stream one of its own. */
  private static String name(Stream removal, @Nullable Stream before, Stream outlet) {
    return before != null && removal.name().equals(nameFor(before))
        ? nameFor(outlet)
        : removal.name();
  }

  private static String nameFor(Stream outlet) {
    return "Removal: " + outlet.name();
  }
}
