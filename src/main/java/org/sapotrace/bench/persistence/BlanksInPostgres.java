package org.sapotrace.bench.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.FlushModeType;
import java.time.Instant;
import java.util.List;
import org.sapotrace.bench.Blanks;
import org.sapotrace.chemistry.SamplingPoint;

@ApplicationScoped
class BlanksInPostgres implements Blanks {

  // From the end of each stream's index as far as is needed, and no further.
  private static final String LATEST =
      """
      select latest.value
      from stream
      cross join lateral (
        select result.sampled_at, result.id, revision.value
        from result
        cross join lateral (
          select value, withdrawn from result_revision
          where stream_id = result.stream_id and result_id = result.id
          order by revision desc limit 1) revision
        where result.stream_id = stream.id and result.sampled_at <= :at and not revision.withdrawn
        order by result.sampled_at desc, result.id desc
        limit :most) latest
      where stream.line = :line and stream.sampling_point = :blank and stream.unit = 'mL'
      order by latest.sampled_at desc, latest.id desc
      limit :most
      """;

  private final EntityManager entities;

  BlanksInPostgres(EntityManager entities) {
    this.entities = entities;
  }

  @Override
  public List<Double> latest(String line, Instant sampledAt, int most) {
    List<?> values =
        entities
            .createNativeQuery(LATEST, Double.class)
            // No titration is a blank, so an import of many need not be written out before each.
            .setFlushMode(FlushModeType.COMMIT)
            .setParameter("line", line)
            .setParameter("blank", SamplingPoint.BLANK.id())
            .setParameter("at", sampledAt)
            .setParameter("most", most)
            .getResultList();
    return values.stream().map(Double.class::cast).toList();
  }
}
