package org.sapotrace.bench.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import org.hibernate.Session;
import org.sapotrace.bench.Samples;

/** Reads no more of the stored JSON than a few numbers. */
@ApplicationScoped
class SamplesInPostgres implements Samples {

  private static final String SHORT =
      """
      select r.id, r.batch, r.sampled_at, v.value,
        cast(v.determination #>> '{result,standardUncertainty}' as double precision),
        cast(v.determination #>> '{result,detectionLimit}' as double precision),
        r.throughput_litres, r.throughput_bed_volumes,
        cast(v.entered ->> 'inletMgPerKg' as double precision)
      from result r
      cross join lateral (
        select value, withdrawn, entered, determination from result_revision
        where stream_id = r.stream_id and result_id = r.id
        order by revision desc limit 1) v
      where r.stream_id = :stream and not v.withdrawn
      """;

  // The parts of the index in which each is found.
  private static final String ANY = "and r.sampled_at >= :from";
  private static final String COUNTED =
      ANY + " and (r.throughput_litres is not null or r.throughput_bed_volumes is not null)";
  private static final String OF_BATCHES = "and r.batch in (:batches)";

  private static final String LATEST_FIRST = " order by r.sampled_at desc, r.id desc limit :most";
  private static final String IN_ORDER = " order by r.sampled_at, r.id";

  private static final Instant EVER_SINCE = Instant.parse("0001-01-01T00:00:00Z");

  private final EntityManager entities;

  SamplesInPostgres(EntityManager entities) {
    this.entities = entities;
  }

  @Override
  public List<Sample> latest(UUID stream, Search search) {
    List<Sample> latestFirst =
        new ArrayList<>(
            entities
                .unwrap(Session.class)
                .createNativeQuery(
                    SHORT + (search.counted() ? COUNTED : ANY) + LATEST_FIRST, Sample.class)
                .setParameter("stream", stream)
                .setParameter("from", search.from() == null ? EVER_SINCE : search.from())
                .setParameter("most", search.most())
                .getResultList());
    Collections.reverse(latestFirst);
    return latestFirst;
  }

  @Override
  public List<Sample> ofBatches(UUID stream, Collection<String> batches) {
    return batches.isEmpty()
        ? List.of()
        : entities
            .unwrap(Session.class)
            .createNativeQuery(SHORT + OF_BATCHES + IN_ORDER, Sample.class)
            .setParameter("stream", stream)
            .setParameter("batches", List.copyOf(batches))
            .getResultList();
  }
}
