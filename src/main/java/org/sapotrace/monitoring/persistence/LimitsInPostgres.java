package org.sapotrace.monitoring.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.UUID;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.LimitsRevisions;

@ApplicationScoped
class LimitsInPostgres
    implements LimitsRevisions,
        PanacheRepositoryBase<LimitsRevisionEntity, LimitsRevisionEntity.Key> {

  @Override
  public List<LimitsRevision> of(UUID stream) {
    return find("key.streamId", Sort.by("key.revision"), stream).stream()
        .map(LimitsRevisionEntity::toLimitsRevision)
        .toList();
  }

  @Override
  public void add(UUID stream, LimitsRevision limits) {
    persist(LimitsRevisionEntity.of(stream, limits));
  }
}
