package org.sapotrace.productline.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.productline.PlantEvent;

/** An event; written once, never changed. */
@Entity
@Table(name = "event")
@NullUnmarked
class PlantEventEntity {

  @Embeddable
  record Key(String line, UUID id) {}

  @EmbeddedId Key key;
  String kind;
  Instant at;
  String note;
  String[] streams;

  @Column(name = "new_phase")
  boolean newPhase;

  @Column(name = "recorded_at")
  Instant recordedAt;

  static PlantEventEntity of(PlantEvent event) {
    PlantEventEntity entity = new PlantEventEntity();
    entity.key = new Key(event.line(), event.id());
    entity.kind = event.kind().name();
    entity.at = event.at();
    entity.note = event.note();
    entity.streams = event.streams().toArray(String[]::new);
    entity.newPhase = event.newPhase();
    entity.recordedAt = event.recordedAt();
    return entity;
  }

  PlantEvent toEvent() {
    return new PlantEvent(
        key.id(),
        key.line(),
        PlantEvent.Kind.valueOf(kind),
        at,
        note,
        List.of(streams),
        newPhase,
        recordedAt);
  }
}
