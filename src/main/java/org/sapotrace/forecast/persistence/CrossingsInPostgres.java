package org.sapotrace.forecast.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.forecast.Crossings;

@ApplicationScoped
class CrossingsInPostgres implements Crossings, PanacheRepositoryBase<CrossingEntity, UUID> {

  @Override
  public Optional<UUID> told(UUID stream) {
    return findByIdOptional(stream).map(crossing -> crossing.resultId);
  }

  @Override
  public void tell(UUID stream, UUID result, Instant now) {
    CrossingEntity told = new CrossingEntity();
    told.streamId = stream;
    told.resultId = result;
    told.toldAt = now;
    persist(told);
  }

  @Override
  public void forget(UUID stream) {
    deleteById(stream);
  }
}
