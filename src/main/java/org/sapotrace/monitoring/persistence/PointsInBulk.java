package org.sapotrace.monitoring.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.hibernate.StatelessSession;
import org.jspecify.annotations.Nullable;

/**
 * Writes many points or judgements with one statement: the values of a column go as one array, each
 * as text, which PostgreSQL reads back bit for bit.
 */
@ApplicationScoped
class PointsInBulk {

  private static final String POINTS =
      """
      insert into point (stream_id, sampled_at, result_id, position, batch, value,
        subgroup_values, standard_uncertainty, below_detection)
      select :stream, cast(sampled_at as timestamptz), cast(result as uuid),
        cast(position as integer), batch, cast(value as double precision),
        cast(subgroup as double precision[]), cast(uncertainty as double precision),
        cast(below as boolean)
      from unnest(cast(:times as text[]), cast(:results as text[]), cast(:positions as text[]),
        cast(:batches as text[]), cast(:values as text[]), cast(:subgroups as text[]),
        cast(:uncertainties as text[]), cast(:below as text[])) as row
        (sampled_at, result, position, batch, value, subgroup, uncertainty, below)
      """;
  private static final String JUDGEMENTS =
      """
      insert into evaluation (stream_id, sampled_at, result_id, limits_revision, rules, run_state,
        ewma_state, cusum_state)
      select :stream, cast(sampled_at as timestamptz), cast(result as uuid),
        cast(limits as integer), string_to_array(rules, ' '), cast(runs as jsonb),
        cast(ewma as jsonb), cast(cusum as jsonb)
      from unnest(cast(:times as text[]), cast(:results as text[]), cast(:limits as text[]),
        cast(:rules as text[]), cast(:runs as text[]), cast(:ewma as text[]),
        cast(:cusum as text[])) as row (sampled_at, result, limits, rules, runs, ewma, cusum)
      on conflict (stream_id, sampled_at, result_id, limits_revision) do update set
        rules = excluded.rules, run_state = excluded.run_state,
        ewma_state = excluded.ewma_state, cusum_state = excluded.cusum_state
      """;

  private final StatelessSession session;

  PointsInBulk(StatelessSession session) {
    this.session = session;
  }

  /** Writes new points of one stream. */
  void insert(UUID stream, List<PointEntity> points) {
    session
        .createNativeMutationQuery(POINTS)
        .setParameter("stream", stream)
        .setParameter("times", column(points, point -> point.key.sampledAt()))
        .setParameter("results", column(points, point -> point.key.resultId()))
        .setParameter("positions", column(points, point -> point.position))
        .setParameter("batches", column(points, point -> point.batch))
        .setParameter("values", column(points, point -> point.value))
        .setParameter("subgroups", column(points, PointsInBulk::subgroup))
        .setParameter("uncertainties", column(points, point -> point.standardUncertainty))
        .setParameter("below", column(points, point -> point.belowDetection))
        .executeUpdate();
  }

  private static @Nullable String subgroup(PointEntity point) {
    return point.subgroupValues == null
        ? null
        : Arrays.stream(point.subgroupValues)
            .map(String::valueOf)
            .collect(Collectors.joining(",", "{", "}"));
  }

  /** Writes judgements of one stream, each in place of the one under the same limits. */
  void upsert(UUID stream, List<EvaluationEntity> judgements) {
    session
        .createNativeMutationQuery(JUDGEMENTS)
        .setParameter("stream", stream)
        .setParameter("times", column(judgements, judged -> judged.key.sampledAt()))
        .setParameter("results", column(judgements, judged -> judged.key.resultId()))
        .setParameter("limits", column(judgements, judged -> judged.key.limitsRevision()))
        .setParameter("rules", column(judgements, judged -> String.join(" ", judged.rules)))
        .setParameter("runs", column(judgements, judged -> judged.runState))
        .setParameter("ewma", column(judgements, judged -> judged.ewmaState))
        .setParameter("cusum", column(judgements, judged -> judged.cusumState))
        .executeUpdate();
  }

  private static <T> @Nullable String[] column(List<T> rows, Function<T, @Nullable Object> value) {
    return rows.stream()
        .map(value)
        .map(each -> each == null ? null : each.toString())
        .toArray(String[]::new);
  }
}
