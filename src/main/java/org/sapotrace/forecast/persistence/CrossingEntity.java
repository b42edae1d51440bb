package org.sapotrace.forecast.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;

/** A crossing that was told; gone once the forecast has moved away. */
@Entity
@Table(name = "foreseen_crossing")
@NullUnmarked
class CrossingEntity {

  @Id
  @Column(name = "stream_id")
  UUID streamId;

  @Column(name = "result_id")
  UUID resultId;

  @Column(name = "told_at")
  Instant toldAt;
}
