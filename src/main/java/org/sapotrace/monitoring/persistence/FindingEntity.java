package org.sapotrace.monitoring.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Signal;

/** A finding; written once, never changed. */
@Entity
@Table(name = "finding")
@NullUnmarked
class FindingEntity {

  @Embeddable
  record Key(
      @Column(name = "stream_id") UUID streamId,
      @Column(name = "signal_id") UUID signalId,
      int number) {}

  @EmbeddedId Key key;
  String cause;
  String action;

  @Column(name = "found_by")
  String foundBy;

  @Column(name = "recorded_at")
  Instant recordedAt;

  UUID[] excluded;

  static FindingEntity of(Signal signal, Finding finding) {
    FindingEntity entity = new FindingEntity();
    entity.key = new Key(signal.stream(), signal.id(), finding.number());
    entity.cause = finding.cause();
    entity.action = finding.action();
    entity.foundBy = finding.by();
    entity.recordedAt = finding.at();
    entity.excluded = finding.exclude().toArray(UUID[]::new);
    return entity;
  }

  Finding toFinding() {
    return new Finding(key.number(), cause, action, foundBy, recordedAt, List.of(excluded));
  }
}
