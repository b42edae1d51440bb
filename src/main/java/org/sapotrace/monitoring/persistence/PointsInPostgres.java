package org.sapotrace.monitoring.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.StatelessSession;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.monitoring.Point;
import org.sapotrace.monitoring.Points;

/**
 * Points are written once and read in bulk, so they pass through a stateless session: nothing is
 * kept in memory, and replaying a long stream costs only its own rows.
 */
@ApplicationScoped
class PointsInPostgres implements Points {

  private static final String IN_ORDER = " order by p.key.sampledAt, p.key.resultId";

  private final StatelessSession session;
  private final PointsInBulk bulk;
  private final JudgementsInPostgres judgements;

  PointsInPostgres(StatelessSession session, PointsInBulk bulk, JudgementsInPostgres judgements) {
    this.session = session;
    this.bulk = bulk;
    this.judgements = judgements;
  }

  @Override
  public Point add(UUID stream, ChartedResult result) {
    int position = count(stream) - move(stream, result, +1) + 1;
    Point point = new Point(position, result);
    session.insert(PointEntity.of(stream, point));
    return point;
  }

  @Override
  public Point addAll(UUID stream, List<ChartedResult> results) {
    int before = positionBefore(stream, results.get(0));
    boolean late = before < count(stream);
    List<PointEntity> added = new ArrayList<>();
    for (ChartedResult result : results) {
      added.add(PointEntity.of(stream, new Point(before + 1 + added.size(), result)));
    }
    bulk.insert(stream, added);
    if (late) {
      number(stream, results.get(0), before);
    }
    return new Point(before + 1, results.get(0));
  }

  private int positionBefore(UUID stream, ChartedResult place) {
    return session
        .createSelectionQuery(
            "select position from PointEntity where key.streamId = :stream"
                + " and (key.sampledAt, key.resultId) < (:sampledAt, :result)"
                + " order by key.sampledAt desc, key.resultId desc",
            Integer.class)
        .setParameter("stream", stream)
        .setParameter("sampledAt", place.sampledAt())
        .setParameter("result", place.result())
        .setMaxResults(1)
        .getResultStream()
        .findFirst()
        .orElse(0);
  }

  /** Numbers all points from a place on anew. */
  private void number(UUID stream, ChartedResult from, int before) {
    session
        .createNativeMutationQuery(
            """
            update point set position = :before + numbered.place
            from (select sampled_at, result_id,
                row_number() over (order by sampled_at, result_id) as place
              from point where stream_id = :stream
                and (sampled_at, result_id) >= (cast(:sampledAt as timestamptz), :result)) numbered
            where point.stream_id = :stream and point.sampled_at = numbered.sampled_at
              and point.result_id = numbered.result_id
              and position <> :before + numbered.place
            """)
        .setParameter("before", before)
        .setParameter("stream", stream)
        .setParameter("sampledAt", from.sampledAt())
        .setParameter("result", from.result())
        .executeUpdate();
  }

  @Override
  public void replace(UUID stream, Point point) {
    session.update(PointEntity.of(stream, point));
  }

  @Override
  public void remove(UUID stream, Point point) {
    judgements.takeBack(stream, point);
    session.delete(PointEntity.of(stream, point));
    move(stream, point.result(), -1);
  }

  /** Moves all points behind the place of a result by some positions; answers how many. */
  private int move(UUID stream, ChartedResult place, int by) {
    return session
        .createMutationQuery(
            "update PointEntity set position = position + :by where key.streamId = :stream"
                + " and (key.sampledAt, key.resultId) > (:sampledAt, :result)")
        .setParameter("by", by)
        .setParameter("stream", stream)
        .setParameter("sampledAt", place.sampledAt())
        .setParameter("result", place.result())
        .executeUpdate();
  }

  @Override
  public int count(UUID stream) {
    // The last position is the number of points, and the index knows it at once.
    Integer last =
        session
            .createSelectionQuery(
                "select max(position) from PointEntity where key.streamId = :stream", Integer.class)
            .setParameter("stream", stream)
            .getSingleResult();
    return last == null ? 0 : last;
  }

  @Override
  public Optional<Point> at(UUID stream, int position) {
    return from(stream, position, 1).stream().filter(p -> p.position() == position).findFirst();
  }

  @Override
  public Optional<Point> ofResult(UUID stream, UUID result) {
    return session
        .createSelectionQuery(
            "from PointEntity where key.streamId = :stream and key.resultId = :result",
            PointEntity.class)
        .setParameter("stream", stream)
        .setParameter("result", result)
        .getResultList()
        .stream()
        .map(PointEntity::toPoint)
        .findFirst();
  }

  @Override
  public List<Point> from(UUID stream, int position, int most) {
    return session
        .createSelectionQuery(
            "from PointEntity where key.streamId = :stream and position >= :position"
                + " order by position",
            PointEntity.class)
        .setParameter("stream", stream)
        .setParameter("position", position)
        .setMaxResults(most)
        .getResultList()
        .stream()
        .map(PointEntity::toPoint)
        .toList();
  }

  @Override
  public List<Point> between(UUID stream, Instant from, Instant to) {
    return session
        .createSelectionQuery(
            "from PointEntity p where key.streamId = :stream"
                + " and key.sampledAt between :from and :to"
                + IN_ORDER,
            PointEntity.class)
        .setParameter("stream", stream)
        .setParameter("from", from)
        .setParameter("to", to)
        .getResultList()
        .stream()
        .map(PointEntity::toPoint)
        .toList();
  }

  @Override
  public Optional<Point> firstSince(UUID stream, @Nullable Instant sampledAt) {
    if (sampledAt == null) {
      return at(stream, 1);
    }
    return session
        .createSelectionQuery(
            "from PointEntity p where key.streamId = :stream and key.sampledAt >= :since"
                + IN_ORDER,
            PointEntity.class)
        .setParameter("stream", stream)
        .setParameter("since", sampledAt)
        .setMaxResults(1)
        .getResultList()
        .stream()
        .map(PointEntity::toPoint)
        .findFirst();
  }
}
