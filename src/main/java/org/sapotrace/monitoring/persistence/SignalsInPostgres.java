package org.sapotrace.monitoring.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.monitoring.Signals;

@ApplicationScoped
class SignalsInPostgres implements Signals, PanacheRepositoryBase<SignalEntity, SignalEntity.Key> {

  private static final UUID BEFORE_ALL = new UUID(0, 0);
  private static final String EXPLAINED =
      "exists (from FindingEntity f where f.key.streamId = s.key.streamId and f.key.signalId = s.key.id)";

  private final EntityManager entities;
  private final Ledger ledger;

  SignalsInPostgres(EntityManager entities, Ledger ledger) {
    this.entities = entities;
    this.ledger = ledger;
  }

  @Override
  public Optional<Signal> signal(UUID id) {
    return toSignals(find("key.id", id).list()).stream().findFirst();
  }

  @Override
  public Optional<UUID> streamOf(UUID id) {
    return entities
        .createQuery("select key.streamId from SignalEntity where key.id = :id", UUID.class)
        .setParameter("id", id)
        .getResultStream()
        .findFirst();
  }

  @Override
  public List<Signal> after(@Nullable UUID exclusive, Filter filter, int most) {
    StringBuilder query = new StringBuilder("from SignalEntity s where key.id > :after");
    Map<String, Object> parameters = new HashMap<>();
    parameters.put("after", exclusive == null ? BEFORE_ALL : exclusive);
    if (filter.streams() != null) {
      query.append(" and key.streamId in :streams");
      parameters.put("streams", filter.streams());
    }
    if (filter.state() != null) {
      query.append(" and ").append(condition(filter.state()));
    }
    return toSignals(find(query.toString(), Sort.by("key.id"), parameters).page(0, most).list());
  }

  @Override
  public List<Signal> latest(UUID stream, Signal.State state, int most) {
    return toSignals(
        find(
                "from SignalEntity s where key.streamId = ?1 and " + condition(state),
                Sort.descending("key.id"),
                stream)
            .page(0, most)
            .list());
  }

  private static String condition(Signal.State state) {
    return switch (state) {
      case UNEXPLAINED -> "lapsedAt is null and not " + EXPLAINED;
      case EXPLAINED -> "lapsedAt is null and " + EXPLAINED;
      case LAPSED -> "lapsedAt is not null";
    };
  }

  @Override
  public List<Signal> liveSince(UUID stream, Instant sampledAt) {
    return toSignals(
        find(
                "key.streamId = ?1 and lastSampledAt >= ?2 and lapsedAt is null",
                Sort.by("key.id"),
                stream,
                sampledAt)
            .list());
  }

  @Override
  public List<Signal> explained(UUID stream) {
    return toSignals(
        find(
                "from SignalEntity s where key.streamId = ?1 and " + EXPLAINED,
                Sort.by("key.id"),
                stream)
            .list());
  }

  /** The signals, each with the finding that holds. */
  private List<Signal> toSignals(List<SignalEntity> found) {
    Map<UUID, Finding> findings = new HashMap<>();
    if (!found.isEmpty()) {
      entities
          .createQuery(
              "from FindingEntity where key.streamId in :streams order by key.number",
              FindingEntity.class)
          .setParameter(
              "streams", found.stream().map(each -> each.key.streamId()).distinct().toList())
          .getResultList()
          .forEach(later -> findings.put(later.key.signalId(), later.toFinding()));
    }
    return found.stream().map(each -> each.toSignal(findings.get(each.key.id()))).toList();
  }

  @Override
  public void save(Signal signal) {
    SignalEntity entity = findById(new SignalEntity.Key(signal.stream(), signal.id()));
    if (entity == null) {
      entity = new SignalEntity();
      entity.take(signal);
      persist(entity);
    } else {
      entity.take(signal);
    }
  }

  @Override
  public void explain(Signal signal, Finding finding) {
    entities.persist(FindingEntity.of(signal, finding));
    ledger.enter(signal.stream(), Act.FINDING_PUT, signal.id().toString(), finding);
  }
}
