package org.sapotrace.notice;

import java.net.URI;
import java.time.Instant;
import java.time.InstantSource;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executor;
import org.sapotrace.webhook.Answer;
import org.sapotrace.webhook.Message;
import org.sapotrace.webhook.Sender;

/*
 * Any number of these work on one database. A delivery is taken in one transaction, sent in none,
 * and settled in another: no lock is held while a receiver makes up its mind. Whoever took it and
 * died has it taken up by another when the lease ends, so that it may be sent twice and is never
 * lost.
 */
/** Carries notices to the subscribers. */
final class Relay {

  private static final System.Logger LOG = System.getLogger(Relay.class.getName());

  /** So many messages are on their way to one subscriber at once, each of another stream. */
  static final int AT_ONCE = 4;

  private final Despatch despatch;
  private final Subscriptions subscriptions;
  private final Sender sender;
  private final InstantSource clock;
  private final Executor executor;
  private final Runnable afterEach;
  private final Map<String, Integer> onTheirWay = new ConcurrentHashMap<>();

  /**
   * A relay.
   *
   * @param executor what sends
   * @param afterEach is called after each try
   */
  Relay(
      Despatch despatch,
      Subscriptions subscriptions,
      Sender sender,
      InstantSource clock,
      Executor executor,
      Runnable afterEach) {
    this.despatch = despatch;
    this.subscriptions = subscriptions;
    this.sender = sender;
    this.clock = clock;
    this.executor = executor;
    this.afterEach = afterEach;
  }

  /**
   * Numbers what is new and has the executor send what is due.
   *
   * @return whether there was anything
   */
  boolean turn() {
    boolean any = despatch.number() > 0;
    for (String subscription : despatch.due(clock.instant())) {
      int free = AT_ONCE - onTheirWay.getOrDefault(subscription, 0);
      List<Deliveries.Claim> claims =
          free > 0 ? despatch.claim(subscription, clock.instant(), free) : List.of();
      claims.forEach(this::begin);
      any |= !claims.isEmpty();
    }
    return any;
  }

  private void begin(Deliveries.Claim claim) {
    String subscription = claim.key().subscription();
    onTheirWay.merge(subscription, 1, Integer::sum);
    executor.execute(
        () -> {
          try {
            attempt(claim);
          } catch (RuntimeException failure) {
            // Its lease ends, and it is taken up again.
            LOG.log(System.Logger.Level.WARNING, "A notice could not be settled", failure);
          } finally {
            onTheirWay.computeIfPresent(subscription, (slug, n) -> n == 1 ? null : n - 1);
            afterEach.run();
          }
        });
  }

  private void attempt(Deliveries.Claim claim) {
    Subscription subscription = subscriptions.subscription(claim.key().subscription());
    Instant now = clock.instant();
    Answer answer =
        sender.send(
            new Message(
                URI.create(subscription.url()),
                claim.key().notice().toString(),
                now,
                claim.event(),
                subscription.secretsAt(now)));
    despatch.settle(claim, answer, clock.instant());
    if (answer.isTaken()) {
      despatch.wake(subscription.slug(), clock.instant());
    }
  }
}
