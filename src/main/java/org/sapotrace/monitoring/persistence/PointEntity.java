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
import org.sapotrace.controlchart.Subgroup;
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

  /** The values that the value is the mean of; null for a single one. */
  @Column(name = "subgroup_values")
  Double[] subgroupValues;

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
    entity.subgroupValues =
        result.values().size() == 1 ? null : result.values().values().toArray(Double[]::new);
    entity.standardUncertainty = result.standardUncertainty();
    entity.belowDetection = result.belowDetection();
    return entity;
  }

  Point toPoint() {
    return new Point(
        position,
        new ChartedResult(
            key.resultId(), batch, key.sampledAt(), values(), standardUncertainty, belowDetection));
  }

  private Subgroup values() {
    return subgroupValues == null ? Subgroup.of(value) : new Subgroup(List.of(subgroupValues));
  }
}
