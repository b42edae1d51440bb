package org.sapotrace.monitoring.persistence;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.monitoring.BaselineDiagnostics;
import org.sapotrace.monitoring.Exclusion;
import org.sapotrace.monitoring.LimitsRevision;
import org.sapotrace.monitoring.LimitsRevisions;

@ApplicationScoped
class LimitsInPostgres
    implements LimitsRevisions,
        PanacheRepositoryBase<LimitsRevisionEntity, LimitsRevisionEntity.Key> {

  private final ObjectMapper json;
  private final Ledger ledger;

  LimitsInPostgres(ObjectMapper json, Ledger ledger) {
    this.json = json;
    this.ledger = ledger;
  }

  @Override
  public List<LimitsRevision> of(UUID stream) {
    return find("key.streamId", Sort.by("key.revision"), stream).stream()
        .map(this::toLimitsRevision)
        .toList();
  }

  private LimitsRevision toLimitsRevision(LimitsRevisionEntity entity) {
    Exclusion[] excluded = read(entity.excluded, Exclusion[].class);
    return entity.toLimitsRevision(
        excluded == null ? List.of() : List.of(excluded),
        read(entity.diagnostics, BaselineDiagnostics.class));
  }

  @Override
  public void add(UUID stream, LimitsRevision limits) {
    LimitsRevisionEntity entity = LimitsRevisionEntity.of(stream, limits);
    entity.diagnostics = write(limits.diagnostics());
    entity.excluded = limits.excluded().isEmpty() ? null : write(limits.excluded());
    persist(entity);
    boolean adopted = limits.status() == LimitsRevision.Status.ADOPTED;
    ledger.enter(
        stream,
        adopted ? Act.LIMITS_ADOPTED : Act.LIMITS_LAID_DOWN,
        String.valueOf(limits.revision()),
        limits);
  }

  private @Nullable String write(@Nullable Object part) {
    try {
      return part == null ? null : json.writeValueAsString(part);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("What a baseline said cannot be written", defect);
    }
  }

  private <T> @Nullable T read(@Nullable String part, Class<T> type) {
    try {
      return part == null ? null : json.readValue(part, type);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("What a baseline said cannot be read", defect);
    }
  }
}
