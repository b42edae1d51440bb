package org.sapotrace.notice;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.webhook.Answer;

/** Hands out what is to be sent, and keeps what came of it; each step a transaction. */
@ApplicationScoped
@Transactional
public class Despatch {

  /** Longer than a try takes; what a killed process had taken is taken up again after it. */
  static final Duration LEASE = Duration.ofSeconds(30);

  private final Outbox outbox;
  private final Deliveries deliveries;
  private final Subscriptions subscriptions;
  private final InstantSource clock;

  Despatch(Outbox outbox, Deliveries deliveries, Subscriptions subscriptions, InstantSource clock) {
    this.outbox = outbox;
    this.deliveries = deliveries;
    this.subscriptions = subscriptions;
    this.clock = clock;
  }

  /** Numbers what is new. */
  int number() {
    return outbox.number();
  }

  /** The subscriptions for which something is due. */
  List<String> due(Instant now) {
    return deliveries.due(now);
  }

  /** Takes what is due for a subscription. */
  List<Deliveries.Claim> claim(String subscription, Instant now, int most) {
    return deliveries.claim(subscription, now, LEASE, most);
  }

  /** Keeps what came of a try. */
  void settle(Deliveries.Claim claim, Answer answer, Instant now) {
    if (answer.isTaken()) {
      deliveries.delivered(claim, Objects.requireNonNull(answer.status()), now);
      return;
    }
    String problem = Objects.requireNonNull(answer.problem());
    Instant earliest = Objects.requireNonNullElse(answer.retryAfter(), Instant.MIN);
    Instant next =
        RetryPlan.next(claim.attempt(), claim.firstTriedAt(), now, earliest).orElse(null);
    deliveries.failed(claim, answer.status(), problem, next);
    if (answer.isGone()) {
      subscriptions.disable(claim.key().subscription(), problem);
    }
  }

  /** Makes all that waits due: for one subscription, or for all where none is given. */
  void wake(@Nullable String subscription, Instant now) {
    deliveries.wake(subscription, now);
  }

  /**
   * Sends a notice once more, from the beginning.
   *
   * @throws Refusal if there is no such delivery, or nothing is sent to the subscriber
   */
  public Delivery resend(String subscription, UUID notice) {
    Subscription known = subscriptions.subscription(subscription);
    delivery(subscription, notice);
    if (!known.active()) {
      throw Refusal.conflict(
          "Subscription %s is switched off: put it with \"active\": true first."
              .formatted(subscription));
    }
    deliveries.resend(subscription, notice, clock.instant());
    return delivery(subscription, notice);
  }

  private Delivery delivery(String subscription, UUID notice) {
    return deliveries
        .delivery(subscription, notice)
        .orElseThrow(
            () ->
                Refusal.unknown(
                    "Subscription %s has no delivery %s.".formatted(subscription, notice)));
  }

  /** The deliveries of a subscription, as {@link Deliveries#of}. */
  public List<Delivery> of(
      String subscription, Delivery.@Nullable State state, @Nullable UUID after, int most) {
    return deliveries.of(subscriptions.subscription(subscription).slug(), state, after, most);
  }
}
