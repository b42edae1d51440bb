package org.sapotrace.notice;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** The deliveries on record. */
public interface Deliveries {

  /** Which delivery. */
  record Key(UUID stream, String subscription, UUID notice) {}

  /**
   * A delivery that is this caller's to try, for a while.
   *
   * @param attempt which try it is, from 1
   * @param firstTriedAt when it was tried first; this time for the first
   * @param event the body
   */
  record Claim(Key key, int attempt, Instant firstTriedAt, String event) {}

  /** The subscriptions with deliveries that may be tried. */
  List<String> due(Instant now);

  /**
   * Takes deliveries that are due and that nobody else has taken: of each stream the first that
   * waits, and only that, so that a receiver hears of a stream in order.
   *
   * @param lease for how long nobody else takes them
   */
  List<Claim> claim(String subscription, Instant now, Duration lease, int most);

  /** The receiver took it. */
  void delivered(Claim claim, int status, Instant now);

  /**
   * The receiver did not take it. Says nothing where somebody else has taken the delivery since.
   *
   * @param next when to try again; null to park it
   */
  void failed(Claim claim, @Nullable Integer status, String problem, @Nullable Instant next);

  /**
   * Makes all that waits for a subscriber due, but for what the receiver is too busy for.
   *
   * @param subscription null for all of them
   */
  void wake(@Nullable String subscription, Instant now);

  /** Puts a delivery back to the beginning. */
  void resend(String subscription, UUID notice, Instant now);

  Optional<Delivery> delivery(String subscription, UUID notice);

  /**
   * Deliveries in the order in which the notices were recorded.
   *
   * @param state null for any
   * @param after the notice behind which to begin (exclusive); null for the beginning
   */
  List<Delivery> of(
      String subscription, Delivery.@Nullable State state, @Nullable UUID after, int most);
}
