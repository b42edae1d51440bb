package org.sapotrace.bench.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.NullUnmarked;

/** One state of a result; written once, never changed. */
@Entity
@Table(name = "result_revision")
@NullUnmarked
class RevisionEntity {

  @Embeddable
  record Key(
      @Column(name = "stream_id") UUID streamId,
      @Column(name = "result_id") UUID resultId,
      int revision) {}

  @EmbeddedId Key key;

  @Column(name = "recorded_at")
  Instant recordedAt;

  String reason;
  boolean withdrawn;
  double value;

  /** JSON, written and read by {@link ResultsInPostgres}, as the next one. */
  @JdbcTypeCode(SqlTypes.JSON)
  String entered;

  @JdbcTypeCode(SqlTypes.JSON)
  String determination;
}
