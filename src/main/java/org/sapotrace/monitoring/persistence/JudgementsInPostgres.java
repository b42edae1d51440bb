package org.sapotrace.monitoring.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
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
import org.sapotrace.monitoring.JudgedPoint;
import org.sapotrace.monitoring.Judgement;
import org.sapotrace.monitoring.Judgements;
import org.sapotrace.monitoring.Point;
import org.sapotrace.monitoring.PointSelection;

/** Evaluations, which pass through a stateless session as points do; see PointsInPostgres. */
@ApplicationScoped
class JudgementsInPostgres implements Judgements {

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
  private static final String AMONG_THE_LAST =
      " and p.position > (select max(n.position) from PointEntity n"
          + " where n.key.streamId = :stream) - :last";
  private static final String IN_ORDER = " order by p.key.sampledAt, p.key.resultId";

  private final StatelessSession session;
  private final PointsInBulk bulk;
  private final ObjectMapper json;

  JudgementsInPostgres(StatelessSession session, PointsInBulk bulk, ObjectMapper json) {
    this.session = session;
    this.bulk = bulk;
    this.json = json;
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
    String bounds =
        (selection.last() == null ? "" : AMONG_THE_LAST)
            + (selection.from() == null ? "" : " and p.key.sampledAt >= :from")
            + (selection.to() == null ? "" : " and p.key.sampledAt <= :to");
    SelectionQuery<Object[]> query = latestJudgement(stream, bounds, limitsRevision);
    if (selection.last() != null) {
      query.setParameter("last", selection.last());
    }
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
