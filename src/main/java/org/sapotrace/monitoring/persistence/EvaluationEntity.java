package org.sapotrace.monitoring.persistence;

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
import org.sapotrace.monitoring.Point;

@Entity
@Table(name = "evaluation")
@NullUnmarked
class EvaluationEntity {

  @Embeddable
  record Key(
      @Column(name = "stream_id") UUID streamId,
      @Column(name = "sampled_at") Instant sampledAt,
      @Column(name = "result_id") UUID resultId,
      @Column(name = "limits_revision") int limitsRevision) {

    static Key of(UUID stream, Point point, int limitsRevision) {
      return new Key(stream, point.result().sampledAt(), point.result().result(), limitsRevision);
    }
  }

  @EmbeddedId Key key;
  String[] rules;

  // What is JSON is written and read by JudgementsInPostgres.
  @JdbcTypeCode(SqlTypes.JSON)
  @Column(name = "run_state")
  String runState;

  /** Null where no moving average was in use. */
  @JdbcTypeCode(SqlTypes.JSON)
  @Column(name = "ewma_state")
  String ewmaState;

  /** Null where no cumulative sum was in use. */
  @JdbcTypeCode(SqlTypes.JSON)
  @Column(name = "cusum_state")
  String cusumState;
}
