package org.sapotrace.productline;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;

/** Keeps what happened at the plant. */
@ApplicationScoped
@Transactional
public class Logbook {

  /**
   * A new phase of a stream, whose lock is held, was put on record.
   *
   * @param at its beginning, which may lie in the past
   * @param recordedAt when it was put on record
   */
  public record PhaseBegun(Stream stream, Instant at, Instant recordedAt) {}

  /**
   * An event to be recorded.
   *
   * @param streams the slugs of the streams that it touches; null for all that the line has
   */
  public record Entry(
      PlantEvent.Kind kind,
      Instant at,
      @Nullable String note,
      @Nullable List<String> streams,
      boolean newPhase) {}

  private final ProductLines productLines;
  private final PlantEvents events;
  private final InstantSource clock;
  private final Event<PhaseBegun> phaseBegun;

  Logbook(
      ProductLines productLines,
      PlantEvents events,
      InstantSource clock,
      Event<PhaseBegun> phaseBegun) {
    this.productLines = productLines;
    this.events = events;
    this.clock = clock;
    this.phaseBegun = phaseBegun;
  }

  /**
   * Records an event.
   *
   * @throws Refusal if it cannot have happened so
   */
  public PlantEvent record(String line, Entry entry) {
    Instant now = clock.instant();
    RecordedTime.check("#/at", "event", entry.at(), now);
    productLines.lockLine(line);
    List<String> touched = touched(line, entry);
    List<Stream> begun =
        entry.newPhase() ? lockWithoutBeginningAt(line, touched, entry.at()) : List.of();
    PlantEvent event =
        new PlantEvent(
            RecordIdentifier.after(events.lastIdentifier(line).orElse(null), now),
            line,
            entry.kind(),
            entry.at(),
            entry.note(),
            touched,
            entry.newPhase(),
            now);
    events.add(event);
    begun.forEach(stream -> phaseBegun.fire(new PhaseBegun(stream, entry.at(), now)));
    return event;
  }

  /** The streams that an event touches, in the order in which they are locked. */
  private List<String> touched(String line, Entry entry) {
    List<String> known = productLines.slugs(line);
    if (entry.streams() == null) {
      return known;
    }
    Set<String> named = new HashSet<>();
    for (int i = 0; i < entry.streams().size(); i++) {
      String slug = entry.streams().get(i);
      String pointer = "#/streams/%d".formatted(i);
      if (!known.contains(slug)) {
        throw Refusal.impossible(pointer, "Line %s has no stream %s.".formatted(line, slug));
      }
      if (!named.add(slug)) {
        throw Refusal.impossible(
            pointer, "Stream %s is named twice. Name it once.".formatted(slug));
      }
    }
    return known.stream().filter(named::contains).toList();
  }

  /** Those of some streams, held, that have no phase yet that begins at that time. */
  private List<Stream> lockWithoutBeginningAt(String line, List<String> slugs, Instant at) {
    return slugs.stream()
        .map(slug -> productLines.lock(line, slug))
        .filter(
            stream -> beginningPhases(stream).stream().noneMatch(known -> known.at().equals(at)))
        .toList();
  }

  public PlantEvent event(UUID id) {
    return events
        .event(id)
        .filter(found -> productLines.isInReach(found.line()))
        .orElseThrow(() -> Refusal.unknown("There is no event %s.".formatted(id)));
  }

  /** Events of a line in order of time, then of recording. */
  public List<PlantEvent> events(String line, PlantEvents.Selection selection, int most) {
    return events.ofLine(productLines.line(line).slug(), selection, most);
  }

  /** The events that touch a stream, in order of time. */
  public List<PlantEvent> touching(Stream stream) {
    return stream.line() == null ? List.of() : events.touching(stream.line(), stream.slug());
  }

  /** When what goes through a tower or a flush was counted from 0 again, in order of time. */
  public List<PlantEvent> countingAnew(Stream stream) {
    return touching(stream).stream().filter(event -> stream.isCountedAnewBy(event.kind())).toList();
  }

  /** Those of them that begin a new phase. */
  public List<PlantEvent> beginningPhases(Stream stream) {
    return stream.line() == null ? List.of() : events.beginningPhases(stream.line(), stream.slug());
  }
}
