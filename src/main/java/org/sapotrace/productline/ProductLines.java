package org.sapotrace.productline;

import io.quarkus.narayana.jta.runtime.TransactionConfiguration;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Event;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.UUID;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.refusal.Refusal;

/**
 * Keeps the product lines and their streams. Every other part finds them here and nowhere else, so
 * that a line out of the caller's reach is for all of them as if it were not there.
 */
@ApplicationScoped
@Transactional
public class ProductLines {

  /**
   * A stream was defined anew with other chart settings.
   *
   * @param stream as it is now
   */
  public record ChartSettingsChanged(Stream stream, Instant at) {}

  /**
   * A removal stream is kept up from now on, or with another inlet than before. The one who fired
   * it holds the stream and both its sides.
   */
  public record InletChanged(Stream removal) {}

  /** What was put, and whether it is new. */
  public record Put<T>(T value, boolean created) {}

  /** How long it may take until all batches on record have their removal, in s. */
  private static final int LONGEST = 900;

  private final Streams streams;
  private final LinesInReach reach;
  private final RemovalStreams removals;
  private final InstantSource clock;
  private final Event<ChartSettingsChanged> settingsChanged;

  ProductLines(
      Streams streams,
      LinesInReach reach,
      RemovalStreams removals,
      InstantSource clock,
      Event<ChartSettingsChanged> settingsChanged) {
    this.streams = streams;
    this.reach = reach;
    this.removals = removals;
    this.clock = clock;
    this.settingsChanged = settingsChanged;
  }

  /**
   * Creates or replaces a line.
   *
   * @param line the line; its version is ignored
   * @param precondition is shown the line as it stands, null where there is none, and throws where
   *     the caller wants nothing changed
   */
  public Put<Line> put(Line line, Consumer<@Nullable Line> precondition) {
    if (!isInReach(line.slug())) {
      throw noLine(line.slug());
    }
    Line current = streams.lockLine(line.slug()).orElse(null);
    if (current == null) {
      precondition.accept(null);
      Line created = line.withVersion(1);
      if (streams.addIfAbsent(created)) {
        return new Put<>(created, true);
      }
      // Somebody else was faster, so this is a replacement after all.
      current = streams.lockLine(line.slug()).orElseThrow();
    }
    precondition.accept(current);
    if (current.saysTheSameAs(line)) {
      return new Put<>(current, false);
    }
    if (current.alkali() != line.alkali() && !streams.streamsAfter(line.slug(), "", 1).isEmpty()) {
      throw Refusal.conflict(
          "Line %s has streams and stays with %s: its figures are soaps of that alkali. Define a new line for another alkali."
              .formatted(line.slug(), current.alkali().id()));
    }
    Line changed = line.withVersion(current.version() + 1);
    streams.change(changed);
    return new Put<>(changed, false);
  }

  public Line line(String slug) {
    return streams
        .line(slug)
        .filter(line -> isInReach(line.slug()))
        .orElseThrow(() -> noLine(slug));
  }

  /** The line, held against every other writer of it until the transaction ends. */
  @Transactional(Transactional.TxType.MANDATORY)
  public Line lockLine(String slug) {
    return streams
        .lockLine(slug)
        .filter(line -> isInReach(line.slug()))
        .orElseThrow(() -> noLine(slug));
  }

  public List<Line> linesAfter(String slugExclusive, int most) {
    return reach
        .slugs()
        .map(
            slugs ->
                slugs.stream()
                    .filter(slug -> slug.compareTo(slugExclusive) > 0)
                    .sorted()
                    .flatMap(slug -> streams.line(slug).stream())
                    .limit(most)
                    .toList())
        .orElseGet(() -> streams.linesAfter(slugExclusive, most));
  }

  /**
   * Creates or replaces a stream.
   *
   * @param precondition as for {@link #put}
   */
  @TransactionConfiguration(timeout = LONGEST)
  public Put<Stream> put(StreamDefinition definition, Consumer<@Nullable Stream> precondition) {
    // The line's lock keeps two creations of one stream apart.
    Line line = lockLine(definition.line());
    Stream current = streams.lock(definition.line(), definition.slug()).orElse(null);
    precondition.accept(current);
    removals.check(definition, current);
    Instant now = clock.instant();
    Stream next = Redefinition.of(definition, line, current, now);
    if (next.equals(current)) {
      return new Put<>(next, false);
    }
    streams.save(next, now);
    removals.keep(current, next, now);
    if (current != null && !current.chart().equals(next.chart())) {
      settingsChanged.fire(new ChartSettingsChanged(next, now));
    }
    return new Put<>(next, current == null);
  }

  /**
   * Creates a stream under no line, or has it meet something else from the beginning.
   *
   * @param slug its name among those under no line; the caller holds it against other writers
   * @param name its name for people, once it is created
   * @param measurand what it measures, in that measurand's own unit
   * @param limits what its results must meet
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public Stream putUnderNoLine(
      String slug, String name, Measurand measurand, Specification limits) {
    Stream current =
        streams.underNoLine(slug).flatMap(known -> streams.lock(known.id())).orElse(null);
    Instant now = clock.instant();
    Stream next =
        current == null
            ? Stream.underNoLine(RecordIdentifier.after(null, now), slug, name, measurand, limits)
            : current.meeting(new DatedSpecification(limits, null));
    if (!next.equals(current)) {
      streams.save(next, now);
    }
    return next;
  }

  /** The stream of that slug under no line; empty where there is none. */
  public Optional<Stream> underNoLine(String slug) {
    return streams.underNoLine(slug);
  }

  public Stream stream(String line, String slug) {
    return streams.stream(line, slug)
        .filter(stream -> isInReach(stream.line()))
        .orElseThrow(() -> noStream(line, slug));
  }

  public Optional<Stream> stream(UUID id) {
    return streams.stream(id).filter(stream -> isInReach(stream.line()));
  }

  /**
   * The identifiers of the streams that the caller may look at, those under no line among them;
   * empty where it is every stream.
   */
  public Optional<List<UUID>> streamsInReach() {
    return reach.slugs().map(streams::idsWithin);
  }

  /** Whether the caller may look at a line, if there is such a one. */
  public boolean isInReach(@Nullable String line) {
    return line == null || reach.slugs().map(slugs -> slugs.contains(line)).orElse(true);
  }

  /**
   * To be called before something is changed on which every line relies, such as a titrant lot, or
   * told of all of them at once.
   *
   * @throws Refusal where the caller is kept to some of the lines
   */
  public void requireEveryLine() {
    reach
        .slugs()
        .ifPresent(
            slugs -> {
              throw Refusal.forbidden(
                  "This concerns every line, and the key is for %s only: use a key for all lines."
                      .formatted(String.join(", ", new TreeSet<>(slugs))));
            });
  }

  public List<Stream> streamsAfter(String line, String slugExclusive, int most) {
    line(line);
    return streams.streamsAfter(line, slugExclusive, most);
  }

  /** The slugs of the streams of a line, in the order in which several are locked. */
  List<String> slugs(String line) {
    return streams.slugs(line);
  }

  /** The stream, held against every other writer until the transaction ends. */
  @Transactional(Transactional.TxType.MANDATORY)
  public Stream lock(String line, String slug) {
    return streams
        .lock(line, slug)
        .filter(stream -> isInReach(stream.line()))
        .orElseThrow(() -> noStream(line, slug));
  }

  /**
   * The stream, held likewise; empty where there is none.
   *
   * @throws Refusal where it stands under no line, and the caller is kept to some lines
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public Optional<Stream> lock(UUID id) {
    Optional<Stream> stream = streams.lock(id).filter(found -> isInReach(found.line()));
    stream.filter(found -> found.line() == null).ifPresent(found -> requireEveryLine());
    return stream;
  }

  /**
   * The removal streams that are kept up between a stream and another, in the order of their slugs.
   */
  public List<Stream> removals(Stream side) {
    return side.line() == null ? List.of() : streams.removals(side.line(), side.slug());
  }

  /**
   * The same, each held against every other writer until the transaction ends. The caller holds the
   * side, and no other stream but that: since whoever holds a removal stream waits for none but
   * those behind it, nobody waits in a circle.
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public List<Stream> lockRemovals(Stream side) {
    return side.line() == null ? List.of() : streams.lockRemovals(side.line(), side.slug());
  }

  /** A new identifier for something recorded in a stream whose lock the caller holds. */
  @Transactional(Transactional.TxType.MANDATORY)
  public UUID nextIdentifier(UUID stream) {
    return streams.nextIdentifier(stream, clock.instant());
  }

  private static Refusal noLine(String slug) {
    return Refusal.unknown("There is no line %s.".formatted(slug));
  }

  private static Refusal noStream(String line, String slug) {
    return Refusal.unknown("Line %s has no stream %s.".formatted(line, slug));
  }
}
