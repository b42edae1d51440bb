package org.sapotrace.notice;

import java.util.List;
import java.util.Optional;

/** The subscriptions on record. */
public interface SubscriptionRegister {

  Optional<Subscription> subscription(String slug);

  /** Subscriptions in the order of their slugs, after the one given (exclusive). */
  List<Subscription> after(String slugExclusive, int most);

  /** The subscription, held against every other writer; its slug is, where there is none. */
  Optional<Subscription> lock(String slug);

  /** Adds a subscription, or changes it; the caller holds its lock. */
  void save(Subscription subscription);
}
