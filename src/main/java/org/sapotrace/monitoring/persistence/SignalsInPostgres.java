package org.sapotrace.monitoring.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.monitoring.Signal;
import org.sapotrace.monitoring.Signals;

@ApplicationScoped
class SignalsInPostgres implements Signals, PanacheRepositoryBase<SignalEntity, SignalEntity.Key> {

  private static final UUID BEFORE_ALL = new UUID(0, 0);

  @Override
  public Optional<Signal> signal(UUID id) {
    return find("key.id", id).firstResultOptional().map(SignalEntity::toSignal);
  }

  @Override
  public List<Signal> after(@Nullable UUID exclusive, Filter filter, int most) {
    StringBuilder query = new StringBuilder("key.id > :after");
    Map<String, Object> parameters = new HashMap<>();
    parameters.put("after", exclusive == null ? BEFORE_ALL : exclusive);
    if (filter.streams() != null) {
      query.append(" and key.streamId in :streams");
      parameters.put("streams", filter.streams());
    }
    if (filter.state() != null) {
      query.append(" and ").append(condition(filter.state()));
    }
    return find(query.toString(), Sort.by("key.id"), parameters).page(0, most).stream()
        .map(SignalEntity::toSignal)
        .toList();
  }

  private static String condition(Signal.State state) {
    return switch (state) {
      case UNEXPLAINED -> "lapsedAt is null";
      // Causes cannot be written down yet, so there is none.
      case EXPLAINED -> "1 = 0";
      case LAPSED -> "lapsedAt is not null";
    };
  }

  @Override
  public List<Signal> liveSince(UUID stream, Instant sampledAt) {
    return find("key.streamId = ?1 and lastSampledAt >= ?2 and lapsedAt is null", stream, sampledAt)
        .stream()
        .map(SignalEntity::toSignal)
        .toList();
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
}
