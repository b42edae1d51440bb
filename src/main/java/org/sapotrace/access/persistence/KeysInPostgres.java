package org.sapotrace.access.persistence;

import io.quarkus.hibernate.orm.panache.PanacheRepositoryBase;
import io.quarkus.panache.common.Sort;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.persistence.EntityManager;
import jakarta.persistence.LockModeType;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sapotrace.access.ApiKey;
import org.sapotrace.access.Keys;
import org.sapotrace.ledger.Act;
import org.sapotrace.ledger.Deed;
import org.sapotrace.ledger.Ledger;

@ApplicationScoped
class KeysInPostgres implements Keys, PanacheRepositoryBase<KeyEntity, String> {

  private static final Sort AS_THEY_WERE_MADE = Sort.by("createdAt", "id");

  private final EntityManager entities;
  private final Ledger ledger;

  KeysInPostgres(EntityManager entities, Ledger ledger) {
    this.entities = entities;
    this.ledger = ledger;
  }

  @Override
  public void hold() {
    entities.createNativeQuery("lock table api_key in share row exclusive mode").executeUpdate();
  }

  @Override
  public void add(Kept kept) {
    persist(KeyEntity.of(kept));
    enter(Act.KEY_MADE, kept.key().id(), kept.key());
  }

  @Override
  public Optional<Kept> kept(String id) {
    return findByIdOptional(id).map(entity -> new Kept(entity.toKey(), entity.secretSha256));
  }

  @Override
  public Optional<ApiKey> lock(String id) {
    return Optional.ofNullable(findById(id, LockModeType.PESSIMISTIC_WRITE)).map(KeyEntity::toKey);
  }

  @Override
  public List<ApiKey> after(@Nullable ApiKey exclusive, int most) {
    var query =
        exclusive == null
            ? findAll(AS_THEY_WERE_MADE)
            : find(
                "createdAt > ?1 or (createdAt = ?1 and id > ?2)",
                AS_THEY_WERE_MADE,
                exclusive.createdAt(),
                exclusive.id());
    return query.page(0, most).stream().map(KeyEntity::toKey).toList();
  }

  @Override
  public void noteUse(String id, Instant at, Instant unlessSince) {
    update(
        "lastUsedAt = ?1 where id = ?2 and (lastUsedAt is null or lastUsedAt <= ?3)",
        at,
        id,
        unlessSince);
  }

  @Override
  public void revoke(String id, ApiKey.Revocation revocation) {
    findById(id).take(revocation);
    enter(Act.KEY_REVOKED, id, revocation);
  }

  /** Neither holds the secret, nor its hash. */
  private void enter(Act act, String id, Object content) {
    ledger.enter(Deed.ofBook("key", id, act, content));
  }
}
