package org.sapotrace.titrant.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import java.util.List;
import java.util.Optional;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Ledger;
import org.sapotrace.titrant.Lots;
import org.sapotrace.titrant.TitrantLot;

/*
 * A slug is locked and not its row: the lock is needed before there is a row, and holding a lot for a
 * titration must not write to it.
 */
@ApplicationScoped
class LotsInPostgres implements Lots, PanacheRepositoryBase<LotEntity, String> {

  private final EntityManager entities;
  private final Ledger ledger;

  LotsInPostgres(EntityManager entities, Ledger ledger) {
    this.entities = entities;
    this.ledger = ledger;
  }

  @Override
  public Optional<TitrantLot> lot(String slug) {
    return findByIdOptional(slug).map(LotEntity::toLot);
  }

  @Override
  public List<TitrantLot> after(String slugExclusive, int most) {
    return find("slug > ?1", Sort.by("slug"), slugExclusive).page(0, most).list().stream()
        .map(LotEntity::toLot)
        .toList();
  }

  @Override
  public void hold(String slug) {
    lockSlug("pg_advisory_xact_lock_shared", slug);
  }

  @Override
  public Optional<TitrantLot> lock(String slug) {
    lockSlug("pg_advisory_xact_lock", slug);
    return lot(slug);
  }

  private void lockSlug(String lock, String slug) {
    entities
        .createNativeQuery(
            "select 1 from %s(hashtextextended(?1, 0))".formatted(lock), Integer.class)
        .setParameter(1, "titrant lot " + slug)
        .getSingleResult();
  }

  @Override
  public void save(TitrantLot lot) {
    LotEntity entity = findById(lot.declared().slug());
    if (entity == null) {
      entity = new LotEntity();
      entity.take(lot);
      persist(entity);
    } else {
      entity.take(lot);
    }
    ledger.enter(lot.stream(), Act.LOT_PUT, lot.declared().slug(), lot);
  }
}
