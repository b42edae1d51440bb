package org.sapotrace.bench.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;

@Entity
@Table(name = "result")
@NullUnmarked
class ResultEntity {

  @Embeddable
  record Key(@Column(name = "stream_id") UUID streamId, UUID id) {}

  @EmbeddedId Key key;
  String batch;

  @Column(name = "sampled_at")
  Instant sampledAt;

  /** That of the latest revision; null where the latest was titrated with no lot on record. */
  @Column(name = "titrant_lot")
  String titrantLot;

  /** What had gone through, likewise; null where the result was withdrawn. */
  @Column(name = "throughput_litres")
  Double throughputLitres;

  @Column(name = "throughput_bed_volumes")
  Double throughputBedVolumes;
}
