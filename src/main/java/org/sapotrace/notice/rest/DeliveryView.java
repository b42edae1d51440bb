package org.sapotrace.notice.rest;

import com.fasterxml.jackson.annotation.JsonRawValue;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.notice.Delivery;
import org.sapotrace.notice.NoticeType;

/**
 * A delivery as it is answered.
 *
 * @param id of the notice, and of the message that carries it
 * @param event the CloudEvent
 */
record DeliveryView(
    UUID id,
    NoticeType type,
    Instant recordedAt,
    Delivery.State state,
    int attempts,
    @Nullable Instant lastTriedAt,
    @Nullable Integer lastStatus,
    @Nullable String lastProblem,
    @Nullable Instant nextTryAt,
    @Nullable Instant deliveredAt,
    @JsonRawValue String event) {

  static DeliveryView of(Delivery delivery) {
    return new DeliveryView(
        delivery.notice(),
        delivery.type(),
        delivery.recordedAt(),
        delivery.state(),
        delivery.attempts(),
        delivery.lastTriedAt(),
        delivery.lastStatus(),
        delivery.lastProblem(),
        delivery.nextTryAt(),
        delivery.deliveredAt(),
        delivery.event());
  }
}
