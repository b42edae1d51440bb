package org.sapotrace.monitoring.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.monitoring.ChartedResult;
import org.sapotrace.monitoring.Point;

@Entity
@Table(name = "point")
@NullUnmarked
class PointEntity {

  @Embeddable
  record Key(
      @Column(name = "stream_id") UUID streamId,
      @Column(name = "sampled_at") Instant sampledAt,
      @Column(name = "result_id") UUID resultId) {}

  @EmbeddedId Key key;
  int position;
  String batch;
  double value;

  @Column(name = "standard_uncertainty")
  Double standardUncertainty;

  @Column(name = "below_detection")
  boolean belowDetection;

  static PointEntity of(UUID stream, Point point) {
    ChartedResult result = point.result();
    PointEntity entity = new PointEntity();
    entity.key = new Key(stream, result.sampledAt(), result.result());
    entity.position = point.position();
    entity.batch = result.batch();
    entity.value = result.value();
    entity.standardUncertainty = result.standardUncertainty();
    entity.belowDetection = result.belowDetection();
    return entity;
  }

  Point toPoint() {
    return new Point(
        position,
        new ChartedResult(
            key.resultId(), batch, key.sampledAt(), value, standardUncertainty, belowDetection));
  }
}
