package org.sapotrace.bench.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hibernate.Session;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Withdrawals;

@ApplicationScoped
class WithdrawalsInPostgres implements Withdrawals {

  // The latest revision of each result of the period, without a look at the rest of the stream.
  private static final String WITHDRAWN =
      """
      select r.sampled_at, latest.value
      from result r
      cross join lateral (
        select value, withdrawn from result_revision
        where stream_id = r.stream_id and result_id = r.id
        order by revision desc limit 1) latest
      where r.stream_id = :stream and latest.withdrawn
        and r.sampled_at between coalesce(:from, timestamptz '-infinity')
          and coalesce(:to, timestamptz 'infinity')
      order by r.sampled_at, r.id
      """;

  private final EntityManager entities;

  WithdrawalsInPostgres(EntityManager entities) {
    this.entities = entities;
  }

  @Override
  public List<Withdrawn> between(UUID stream, @Nullable Instant from, @Nullable Instant to) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(WITHDRAWN, Withdrawn.class)
        .setParameter("stream", stream)
        .setParameter("from", from, Instant.class)
        .setParameter("to", to, Instant.class)
        .getResultList();
  }
}
