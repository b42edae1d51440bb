package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The charted points of the streams. */
public interface Points {

  /** Puts a result in its place; those behind it move on by one. */
  Point add(UUID stream, ChartedResult result);

  /**
   * Puts results in their places; those behind them move on.
   *
   * @param results at least one, in the order of sampling, then of recording
   * @return the point of the first of them
   */
  Point addAll(UUID stream, List<ChartedResult> results);

  /** Puts a result in the place of what it was before, sampled at the same time. */
  void replace(UUID stream, Point point);

  /** Takes a point and its judgements away; those behind it move back by one. */
  void remove(UUID stream, Point point);

  int count(UUID stream);

  Optional<Point> at(UUID stream, int position);

  /** The point of a result; empty where it is not on the chart. */
  Optional<Point> ofResult(UUID stream, UUID result);

  /** The points from a position on (inclusive), in order. */
  List<Point> from(UUID stream, int position, int most);

  /** The points sampled between two times (both inclusive), in order. */
  List<Point> between(UUID stream, Instant from, Instant to);

  /** The first point sampled at that time or later; the first of all for null. */
  Optional<Point> firstSince(UUID stream, @Nullable Instant sampledAt);
}
