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
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.monitoring.Beginning;
import org.sapotrace.monitoring.Finding;
import org.sapotrace.monitoring.Signal;

@Entity
@Table(name = "signal")
@NullUnmarked
class SignalEntity {

  @Embeddable
  record Key(@Column(name = "stream_id") UUID streamId, UUID id) {}

  @EmbeddedId Key key;
  String rule;
  String side;

  @Column(name = "limits_revision")
  int limitsRevision;

  @Column(name = "result_id")
  UUID resultId;

  @Column(name = "opened_at")
  Instant openedAt;

  @Column(name = "started_at")
  Instant startedAt;

  @Column(name = "started_earliest")
  Instant startedEarliest;

  @Column(name = "started_latest")
  Instant startedLatest;

  @Column(name = "raised_at")
  Instant raisedAt;

  @Column(name = "first_window")
  UUID[] firstWindow;

  @Column(name = "last_result_id")
  UUID lastResultId;

  @Column(name = "last_sampled_at")
  Instant lastSampledAt;

  int points;
  String text;

  @Column(name = "lapsed_at")
  Instant lapsedAt;

  @Column(name = "lapse_reason")
  String lapseReason;

  void take(Signal signal) {
    key = new Key(signal.stream(), signal.id());
    rule = signal.rule().id();
    side = signal.side().name();
    limitsRevision = signal.limitsRevision();
    resultId = signal.result();
    openedAt = signal.openedAt();
    startedAt = signal.start().at();
    startedEarliest = signal.start().earliest();
    startedLatest = signal.start().latest();
    raisedAt = signal.raisedAt();
    firstWindow = signal.firstWindow().toArray(UUID[]::new);
    lastResultId = signal.lastResult();
    lastSampledAt = signal.lastSampledAt();
    points = signal.points();
    text = signal.text();
    lapsedAt = signal.lapse() == null ? null : signal.lapse().at();
    lapseReason = signal.lapse() == null ? null : signal.lapse().reason();
  }

  /**
   * The signal.
   *
   * @param finding that holds; null for none
   */
  Signal toSignal(Finding finding) {
    return new Signal(
        key.id(),
        key.streamId(),
        SignalRule.named(rule),
        Side.valueOf(side),
        limitsRevision,
        resultId,
        openedAt,
        new Beginning(startedAt, startedEarliest, startedLatest),
        raisedAt,
        List.of(firstWindow),
        lastResultId,
        lastSampledAt,
        points,
        text,
        lapsedAt == null ? null : new Signal.Lapse(lapsedAt, lapseReason),
        finding);
  }
}
