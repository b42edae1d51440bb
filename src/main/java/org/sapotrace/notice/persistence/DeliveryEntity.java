package org.sapotrace.notice.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Embeddable;
import jakarta.persistence.EmbeddedId;
import jakarta.persistence.Entity;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.notice.Delivery;
import org.sapotrace.notice.NoticeType;

@Entity
@Table(name = "delivery")
@NullUnmarked
class DeliveryEntity {

  @Embeddable
  record Key(
      @Column(name = "stream_id") UUID streamId,
      String subscription,
      @Column(name = "notice_id") UUID noticeId) {}

  @EmbeddedId Key key;
  String state;
  int attempts;

  @Column(name = "first_tried_at")
  Instant firstTriedAt;

  @Column(name = "last_tried_at")
  Instant lastTriedAt;

  @Column(name = "last_status")
  Integer lastStatus;

  @Column(name = "last_problem")
  String lastProblem;

  @Column(name = "next_try_at")
  Instant nextTryAt;

  @Column(name = "leased_until")
  Instant leasedUntil;

  @Column(name = "delivered_at")
  Instant deliveredAt;

  Delivery toDelivery(NoticeEntity notice) {
    return new Delivery(
        key.noticeId(),
        NoticeType.named(notice.type),
        notice.recordedAt,
        Delivery.State.valueOf(state.toUpperCase(Locale.ROOT)),
        attempts,
        lastTriedAt,
        lastStatus,
        lastProblem,
        nextTryAt,
        deliveredAt,
        notice.event);
  }
}
