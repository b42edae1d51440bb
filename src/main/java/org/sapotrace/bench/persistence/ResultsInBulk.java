package org.sapotrace.bench.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.UUID;
import java.util.function.Function;
import org.hibernate.StatelessSession;
import org.jspecify.annotations.Nullable;

/**
 * Writes many new results with one statement for each table: the values of a column go as one
 * array, each as text, which PostgreSQL reads back bit for bit.
 */
@ApplicationScoped
class ResultsInBulk {

  private static final String RESULTS =
      """
      insert into result (stream_id, id, batch, sampled_at, titrant_lot, throughput_litres,
        throughput_bed_volumes)
      select :stream, cast(id as uuid), batch, cast(sampled_at as timestamptz), titrant_lot,
        cast(litres as double precision), cast(bed_volumes as double precision)
      from unnest(cast(:ids as text[]), cast(:batches as text[]), cast(:times as text[]),
        cast(:lots as text[]), cast(:litres as text[]), cast(:bedVolumes as text[]))
        as row (id, batch, sampled_at, titrant_lot, litres, bed_volumes)
      """;
  private static final String REVISIONS =
      """
      insert into result_revision (stream_id, result_id, revision, recorded_at, withdrawn, value,
        entered, determination)
      select :stream, cast(id as uuid), 1, cast(recorded_at as timestamptz), false,
        cast(value as double precision), cast(entered as jsonb), cast(determination as jsonb)
      from unnest(cast(:ids as text[]), cast(:times as text[]), cast(:values as text[]),
        cast(:entered as text[]), cast(:determinations as text[]))
        as row (id, recorded_at, value, entered, determination)
      """;

  private final StatelessSession session;

  ResultsInBulk(StatelessSession session) {
    this.session = session;
  }

  /** Writes new results of one stream. */
  void insert(UUID stream, List<ResultEntity> results) {
    session
        .createNativeMutationQuery(RESULTS)
        .setParameter("stream", stream)
        .setParameter("ids", column(results, result -> result.key.id()))
        .setParameter("batches", column(results, result -> result.batch))
        .setParameter("times", column(results, result -> result.sampledAt))
        .setParameter("lots", column(results, result -> result.titrantLot))
        .setParameter("litres", column(results, result -> result.throughputLitres))
        .setParameter("bedVolumes", column(results, result -> result.throughputBedVolumes))
        .executeUpdate();
  }

  /** Writes the first revisions of results of one stream. */
  void insertFirst(UUID stream, List<RevisionEntity> revisions) {
    session
        .createNativeMutationQuery(REVISIONS)
        .setParameter("stream", stream)
        .setParameter("ids", column(revisions, revision -> revision.key.resultId()))
        .setParameter("times", column(revisions, revision -> revision.recordedAt))
        .setParameter("values", column(revisions, revision -> revision.value))
        .setParameter("entered", column(revisions, revision -> revision.entered))
        .setParameter("determinations", column(revisions, revision -> revision.determination))
        .executeUpdate();
  }

  private static <T> @Nullable String[] column(List<T> rows, Function<T, @Nullable Object> value) {
    return rows.stream()
        .map(value)
        .map(each -> each == null ? null : each.toString())
        .toArray(String[]::new);
  }
}
