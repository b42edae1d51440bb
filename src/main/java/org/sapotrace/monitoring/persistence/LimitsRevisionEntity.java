package org.sapotrace.monitoring.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.hibernate.annotations.JdbcTypeCode;
import org.hibernate.type.SqlTypes;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.monitoring.BaselineDiagnostics;
import org.sapotrace.monitoring.Exclusion;
import org.sapotrace.monitoring.LimitsRevision;

/** One revision of a stream's limits; written once, never changed. */
@Entity
@Table(name = "limits_revision")
@NullUnmarked
class LimitsRevisionEntity {

  @Embeddable
  record Key(@Column(name = "stream_id") UUID streamId, int revision) {}

  @EmbeddedId Key key;
  String status;
  String origin;

  @Column(name = "effective_from")
  Instant effectiveFrom;

  @Column(name = "adopted_at")
  Instant adoptedAt;

  @Column(name = "baseline_from")
  Instant baselineFrom;

  @Column(name = "baseline_to")
  Instant baselineTo;

  Integer n;
  double centre;
  double sigma;

  @Column(name = "non_negative")
  boolean nonNegative;

  String scale;

  @Column(name = "box_cox_lambda")
  Double boxCoxLambda;

  String dispersion;
  String[] rules;

  @Column(name = "ewma_lambda")
  Double ewmaLambda;

  @Column(name = "ewma_width")
  Double ewmaWidth;

  @Column(name = "cusum_reference")
  Double cusumReference;

  @Column(name = "cusum_decision")
  Double cusumDecision;

  @Column(name = "cusum_head_start")
  Double cusumHeadStart;

  String reason;

  /** JSON, written and read by {@link LimitsInPostgres}, as the next one. */
  @JdbcTypeCode(SqlTypes.JSON)
  String diagnostics;

  @JdbcTypeCode(SqlTypes.JSON)
  String excluded;

  @Column(name = "reestimate_at")
  Integer[] reestimateAt;

  static LimitsRevisionEntity of(UUID stream, LimitsRevision limits) {
    LimitsRevisionEntity entity = new LimitsRevisionEntity();
    entity.key = new Key(stream, limits.revision());
    entity.status = limits.status().name();
    entity.origin = limits.origin().name();
    entity.effectiveFrom = limits.effectiveFrom();
    entity.adoptedAt = limits.adoptedAt();
    LimitsRevision.Baseline baseline = limits.baseline();
    if (baseline != null) {
      entity.n = baseline.n();
      entity.baselineFrom = baseline.from();
      entity.baselineTo = baseline.to();
    }
    entity.centre = limits.limits().centre();
    entity.sigma = limits.limits().sigma();
    entity.nonNegative = limits.limits().nonNegative();
    entity.scale = limits.plotting().scale().id();
    entity.boxCoxLambda = limits.plotting().lambda();
    entity.dispersion = limits.dispersion() == null ? null : limits.dispersion().id();
    entity.take(limits.detectors());
    entity.reason = limits.reason();
    entity.reestimateAt = limits.reestimateAt().toArray(Integer[]::new);
    return entity;
  }

  private void take(Detectors detectors) {
    rules = RuleNames.of(detectors.rules());
    Ewma ewma = detectors.ewma();
    ewmaLambda = ewma == null ? null : ewma.lambda();
    ewmaWidth = ewma == null ? null : ewma.width();
    Cusum cusum = detectors.cusum();
    cusumReference = cusum == null ? null : cusum.reference();
    cusumDecision = cusum == null ? null : cusum.decision();
    cusumHeadStart = cusum == null ? null : cusum.headStart();
  }

  private Detectors detectors() {
    return new Detectors(
        RuleNames.runRules(rules),
        ewmaLambda == null ? null : new Ewma(ewmaLambda, ewmaWidth),
        cusumReference == null ? null : new Cusum(cusumReference, cusumDecision, cusumHeadStart));
  }

  LimitsRevision toLimitsRevision(List<Exclusion> left, BaselineDiagnostics said) {
    return new LimitsRevision(
        key.revision(),
        LimitsRevision.Status.valueOf(status),
        LimitsRevision.Origin.valueOf(origin),
        effectiveFrom,
        adoptedAt,
        n == null ? null : new LimitsRevision.Baseline(n, baselineFrom, baselineTo),
        new Plotting(Scale.named(scale), boxCoxLambda),
        new ControlLimits(centre, sigma, nonNegative),
        dispersion == null ? null : Dispersion.named(dispersion),
        detectors(),
        reason,
        left,
        said,
        reestimateAt == null ? List.of() : List.of(reestimateAt));
  }
}
