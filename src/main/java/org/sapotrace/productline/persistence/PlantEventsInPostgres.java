package org.sapotrace.productline.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import jakarta.enterprise.context.ApplicationScoped;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Deed;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.productline.PlantEvent;
import org.sapotrace.productline.PlantEvents;

@ApplicationScoped
class PlantEventsInPostgres
    implements PlantEvents, PanacheRepositoryBase<PlantEventEntity, PlantEventEntity.Key> {

  private static final String IN_ORDER = " order by at, key.id";
  private static final String TOUCHING = "key.line = ?1 and array_position(streams, ?2) > 0";

  private final Ledger ledger;

  PlantEventsInPostgres(Ledger ledger) {
    this.ledger = ledger;
  }

  @Override
  public void add(PlantEvent event) {
    persist(PlantEventEntity.of(event));
    ledger.enter(Deed.ofLine(event.line(), Act.EVENT_RECORDED, event.id().toString(), event));
  }

  @Override
  public Optional<PlantEvent> event(UUID id) {
    return find("key.id", id).firstResultOptional().map(PlantEventEntity::toEvent);
  }

  @Override
  public Optional<UUID> lastIdentifier(String line) {
    return find("key.line = ?1 order by key.id desc", line)
        .firstResultOptional()
        .map(last -> last.key.id());
  }

  @Override
  public List<PlantEvent> ofLine(String line, Selection selection, int most) {
    StringBuilder query = new StringBuilder("key.line = :line");
    Map<String, Object> parameters = new HashMap<>();
    parameters.put("line", line);
    if (selection.from() != null) {
      query.append(" and at >= :from");
      parameters.put("from", selection.from());
    }
    if (selection.to() != null) {
      query.append(" and at <= :to");
      parameters.put("to", selection.to());
    }
    if (selection.after() != null) {
      query.append(" and (at, key.id) > (:at, :id)");
      parameters.put("at", selection.after().at());
      parameters.put("id", selection.after().id());
    }
    return find(query + IN_ORDER, parameters).page(0, most).stream()
        .map(PlantEventEntity::toEvent)
        .toList();
  }

  @Override
  public List<PlantEvent> touching(String line, String stream) {
    return find(TOUCHING + IN_ORDER, line, stream).stream().map(PlantEventEntity::toEvent).toList();
  }

  @Override
  public List<PlantEvent> beginningPhases(String line, String stream) {
    return find(TOUCHING + " and newPhase" + IN_ORDER, line, stream).stream()
        .map(PlantEventEntity::toEvent)
        .toList();
  }
}
