package org.sapotrace.bench.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.Tuple;
import java.time.Instant;
import java.util.Collections;
import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.sapotrace.bench.OwnReplicates;

/** Reads replicates out of the stored JSON, for their numbers alone. */
@ApplicationScoped
class ReplicatesInPostgres implements OwnReplicates {

  // The index gives the latest results, and each result its latest revision.
  private static final String LATEST =
      """
      select r.id, r.batch, r.sampled_at, v.entered ->> 'analyst' as analyst,
        v.determination -> 'result' ->> 'replicates' as replicates
      from (
        select id, batch, sampled_at from result
        where stream_id = :stream
          and sampled_at between :from and :to
        order by sampled_at desc, id desc limit :looked) r
      cross join lateral (
        select withdrawn, entered, determination from result_revision
        where stream_id = :stream and result_id = r.id order by revision desc limit 1) v
      where not v.withdrawn and v.entered ->> 'kind' = 'titration'
        and jsonb_array_length(v.entered #> '{readings,replicates}') >= :fewest
      order by r.sampled_at desc, r.id desc limit :most
      """;

  // Beyond any time of sampling on record.
  private static final Instant EVER_SINCE = Instant.parse("0001-01-01T00:00:00Z");
  private static final Instant FOR_EVER = Instant.parse("9999-12-31T00:00:00Z");

  private final EntityManager entities;
  private final ObjectMapper json;

  ReplicatesInPostgres(EntityManager entities, ObjectMapper json) {
    this.entities = entities;
    this.json = json;
  }

  @Override
  public List<Determined> latest(UUID stream, Search search) {
    List<?> rows =
        entities
            .createNativeQuery(LATEST, Tuple.class)
            .setParameter("stream", stream)
            .setParameter("from", search.from() == null ? EVER_SINCE : search.from())
            .setParameter("to", search.to() == null ? FOR_EVER : search.to())
            .setParameter("fewest", search.fewest())
            .setParameter("looked", search.looked())
            .setParameter("most", search.most())
            .getResultList();
    List<Determined> latestFirst =
        rows.stream().map(row -> toDetermined((Tuple) row)).collect(Collectors.toList());
    Collections.reverse(latestFirst);
    return latestFirst;
  }

  private Determined toDetermined(Tuple row) {
    try {
      return new Determined(
          row.get("id", UUID.class),
          row.get("batch", String.class),
          row.get("sampled_at", Instant.class),
          row.get("analyst", String.class),
          List.of(json.readValue(row.get("replicates", String.class), Double[].class)));
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A stored result cannot be read", defect);
    }
  }
}
