package org.sapotrace.monitoring.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.hibernate.StatelessSession;
import org.hibernate.query.SelectionQuery;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.CusumState;
import org.sapotrace.controlchart.EwmaState;
import org.sapotrace.controlchart.RunState;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.monitoring.JudgedPoint;
import org.sapotrace.monitoring.Judgement;
import org.sapotrace.monitoring.Point;
import org.sapotrace.monitoring.PointSelection;
import org.sapotrace.monitoring.Points;

/**
 * Points and evaluations are written once and read in bulk, so they pass through a stateless
 * session: nothing is kept in memory, and replaying a long stream costs only its own rows.
 */
@ApplicationScoped
class PointsInPostgres implements Points {

  private static final String LATEST_JUDGEMENT =
      """
      select p, e from PointEntity p
      left join EvaluationEntity e
        on e.key.streamId = p.key.streamId and e.key.sampledAt = p.key.sampledAt
        and e.key.resultId = p.key.resultId
        and e.key.limitsRevision = (
          select max(l.key.limitsRevision) from EvaluationEntity l
          where l.key.streamId = p.key.streamId and l.key.sampledAt = p.key.sampledAt
            and l.key.resultId = p.key.resultId and l.key.limitsRevision <= :revision)
      where p.key.streamId = :stream
      """;
  private static final String IN_ORDER = " order by p.key.sampledAt, p.key.resultId";

  private final StatelessSession session;
  private final PointsInBulk bulk;
  private final ObjectMapper json;

  PointsInPostgres(StatelessSession session, PointsInBulk bulk, ObjectMapper json) {
    this.session = session;
    this.bulk = bulk;
    this.json = json;
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
  public void takeBack(UUID stream, Point point) {
    session
        .createMutationQuery(
            "delete from EvaluationEntity where key.streamId = :stream"
                + " and key.sampledAt = :sampledAt and key.resultId = :result")
        .setParameter("stream", stream)
        .setParameter("sampledAt", point.result().sampledAt())
        .setParameter("result", point.result().result())
        .executeUpdate();
  }

  @Override
  public void remove(UUID stream, Point point) {
    takeBack(stream, point);
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

  @Override
  public void judge(UUID stream, List<JudgedPoint> judged) {
    if (!judged.isEmpty()) {
      bulk.upsert(stream, judged.stream().map(each -> toEntity(stream, each)).toList());
    }
  }

  private EvaluationEntity toEntity(UUID stream, JudgedPoint judged) {
    Judgement judgement = Objects.requireNonNull(judged.judgement());
    EvaluationEntity entity = new EvaluationEntity();
    entity.key = EvaluationEntity.Key.of(stream, judged.point(), judgement.limitsRevision());
    entity.rules = RuleNames.of(judgement.rules());
    entity.runState = write(judgement.state().runs());
    entity.ewmaState = write(judgement.state().ewma());
    entity.cusumState = write(judgement.state().cusum());
    return entity;
  }

  @Override
  public Optional<Judgement> judgement(UUID stream, Point point, int limitsRevision) {
    return Optional.ofNullable(
            session.get(
                EvaluationEntity.class, EvaluationEntity.Key.of(stream, point, limitsRevision)))
        .map(this::toJudgement);
  }

  @Override
  public List<JudgedPoint> judged(
      UUID stream, PointSelection selection, @Nullable Integer limitsRevision) {
    Integer last = selection.last();
    int firstPosition = last == null ? 1 : Math.max(1, count(stream) - last + 1);
    String bounds =
        " and p.position >= :first"
            + (selection.from() == null ? "" : " and p.key.sampledAt >= :from")
            + (selection.to() == null ? "" : " and p.key.sampledAt <= :to");
    SelectionQuery<Object[]> query =
        latestJudgement(stream, bounds, limitsRevision).setParameter("first", firstPosition);
    if (selection.from() != null) {
      query.setParameter("from", selection.from());
    }
    if (selection.to() != null) {
      query.setParameter("to", selection.to());
    }
    return toJudged(query);
  }

  @Override
  public Optional<JudgedPoint> judgedAt(
      UUID stream, int position, @Nullable Integer limitsRevision) {
    return toJudged(
            latestJudgement(stream, " and p.position = :position", limitsRevision)
                .setParameter("position", position))
        .stream()
        .findFirst();
  }

  @Override
  public List<JudgedPoint> judgedFrom(UUID stream, int position, int most) {
    return toJudged(
        latestJudgement(stream, " and p.position >= :position", null)
            .setParameter("position", position)
            .setMaxResults(most));
  }

  @Override
  public List<JudgedPoint> ofResults(UUID stream, List<UUID> results) {
    return toJudged(
        latestJudgement(stream, " and p.key.resultId in :results", null)
            .setParameter("results", results));
  }

  private SelectionQuery<Object[]> latestJudgement(
      UUID stream, String bounds, @Nullable Integer limitsRevision) {
    return session
        .createSelectionQuery(LATEST_JUDGEMENT + bounds + IN_ORDER, Object[].class)
        .setParameter("stream", stream)
        .setParameter("revision", Objects.requireNonNullElse(limitsRevision, Integer.MAX_VALUE));
  }

  private List<JudgedPoint> toJudged(SelectionQuery<Object[]> query) {
    return query.getResultList().stream()
        .map(
            row ->
                new JudgedPoint(
                    ((PointEntity) row[0]).toPoint(),
                    row[1] == null ? null : toJudgement((EvaluationEntity) row[1])))
        .toList();
  }

  private Judgement toJudgement(EvaluationEntity entity) {
    ChartState state =
        new ChartState(
            Objects.requireNonNull(read(entity.runState, RunState.class)),
            read(entity.ewmaState, EwmaState.class),
            read(entity.cusumState, CusumState.class));
    return new Judgement(entity.key.limitsRevision(), state, RuleNames.rules(entity.rules));
  }

  private @Nullable String write(@Nullable Object state) {
    try {
      return state == null ? null : json.writeValueAsString(state);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("The state of a chart cannot be written", defect);
    }
  }

  private <T> @Nullable T read(@Nullable String state, Class<T> type) {
    try {
      return state == null ? null : json.readValue(state, type);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A stored state of a chart cannot be read", defect);
    }
  }
}
