package org.sapotrace.bench.persistence;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.hibernate.Session;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Throughputs;

@ApplicationScoped
class ThroughputsInPostgres implements Throughputs {

  private static final UUID NONE = new UUID(0, 0);

  private static final String AROUND =
      """
      with counted as not materialized (
        select id, sampled_at, throughput_litres, throughput_bed_volumes from result
        where stream_id = :stream and id <> :except)
      (select * from counted where sampled_at between :from and :to
        and (throughput_litres is not null or throughput_bed_volumes is not null))
      union (select * from counted where sampled_at < :from and throughput_litres is not null
        order by sampled_at desc, id desc limit 1)
      union (select * from counted where sampled_at < :from and throughput_bed_volumes is not null
        order by sampled_at desc, id desc limit 1)
      union (select * from counted where sampled_at > :to and throughput_litres is not null
        order by sampled_at, id limit 1)
      union (select * from counted where sampled_at > :to and throughput_bed_volumes is not null
        order by sampled_at, id limit 1)
      """;

  private final EntityManager entities;

  ThroughputsInPostgres(EntityManager entities) {
    this.entities = entities;
  }

  @Override
  public List<Counted> around(UUID stream, Instant from, Instant to, @Nullable UUID except) {
    return entities
        .unwrap(Session.class)
        .createNativeQuery(AROUND, Counted.class)
        .setParameter("stream", stream)
        .setParameter("from", from)
        .setParameter("to", to)
        .setParameter("except", Objects.requireNonNullElse(except, NONE))
        .getResultList();
  }
}
