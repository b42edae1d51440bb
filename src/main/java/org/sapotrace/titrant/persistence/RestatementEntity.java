package org.sapotrace.titrant.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.NullUnmarked;

/** A restatement; written once, never changed. */
@Entity
@Table(name = "restatement")
@NullUnmarked
class RestatementEntity {

  @Id UUID id;
  String lot;

  @Column(name = "sampled_from")
  Instant sampledFrom;

  String reason;

  @Column(name = "recorded_at")
  Instant recordedAt;

  /** The whole restatement as JSON, written and read by {@link RestatementsInPostgres}. */
  @JdbcTypeCode(SqlTypes.JSON)
  String outcome;
}
