package org.sapotrace.productline;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;

/** The lines and streams on record. */
public interface Streams {

  Optional<Line> line(String slug);

  /**
   * The line, held against every other writer until the transaction ends; empty where there is
   * none.
   */
  Optional<Line> lockLine(String slug);

  /** The lines in the order of their slugs, after the one given (exclusive). */
  List<Line> linesAfter(String slugExclusive, int most);

  /**
   * Adds a line unless there is one of that slug, waiting for whoever is adding it at this moment;
   * false where there is one.
   */
  boolean addIfAbsent(Line line);

  /** Changes a line whose lock the caller holds. */
  void change(Line line);

  Optional<Stream> stream(String line, String slug);

  Optional<Stream> stream(UUID id);

  /** The stream of that slug under no line. */
  Optional<Stream> underNoLine(String slug);

  /** The streams of a line in the order of their slugs, after the one given (exclusive). */
  List<Stream> streamsAfter(String line, String slugExclusive, int most);

  /**
   * The removal streams that are kept up between a stream and another, in the order of their slugs.
   *
   * @param side the slug of either
   */
  List<Stream> removals(String line, String side);

  /** As {@link #removals}, each held as {@link #lock(String, String)} does, in that order. */
  List<Stream> lockRemovals(String line, String side);

  void save(Stream stream, Instant recordedAt);

  /**
   * Holds a stream against every other writer until the transaction ends. Everything that is
   * recorded in a stream is recorded under this lock.
   */
  Optional<Stream> lock(String line, String slug);

  /** As {@link #lock(String, String)}, by the stream's identifier. */
  Optional<Stream> lock(UUID id);

  /**
   * A new identifier for something recorded in a stream, later than all before it in that stream.
   * The caller holds the stream's lock.
   */
  UUID nextIdentifier(UUID stream, Instant now);
}
