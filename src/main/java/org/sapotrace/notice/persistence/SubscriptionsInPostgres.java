package org.sapotrace.notice.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Optional;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Deed;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.notice.Subscription;
import org.sapotrace.notice.SubscriptionRegister;

/* A slug is locked and not its row: the lock is needed before there is a row. */
@ApplicationScoped
class SubscriptionsInPostgres
    implements SubscriptionRegister, PanacheRepositoryBase<SubscriptionEntity, String> {

  private final EntityManager entities;
  private final Ledger ledger;

  SubscriptionsInPostgres(EntityManager entities, Ledger ledger) {
    this.entities = entities;
    this.ledger = ledger;
  }

  @Override
  public Optional<Subscription> subscription(String slug) {
    return findByIdOptional(slug).map(SubscriptionEntity::toSubscription);
  }

  @Override
  public List<Subscription> after(String slugExclusive, int most) {
    return find("slug > ?1", Sort.by("slug"), slugExclusive).page(0, most).list().stream()
        .map(SubscriptionEntity::toSubscription)
        .toList();
  }

  @Override
  public Optional<Subscription> lock(String slug) {
    entities
        .createNativeQuery(
            "select 1 from pg_advisory_xact_lock(hashtextextended(?1, 0))", Integer.class)
        .setParameter(1, "subscription " + slug)
        .getSingleResult();
    return subscription(slug);
  }

  @Override
  public void save(Subscription subscription) {
    SubscriptionEntity entity = findById(subscription.slug());
    if (entity == null) {
      entity = new SubscriptionEntity();
      entity.take(subscription);
      persist(entity);
    } else {
      entity.take(subscription);
    }
    ledger.enter(
        Deed.ofBook(
            "subscription",
            subscription.slug(),
            Act.SUBSCRIPTION_PUT,
            SubscriptionEntry.of(subscription)));
  }
}
