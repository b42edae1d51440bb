package org.sapotrace.access.persistence;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.NullUnmarked;
import org.sapotrace.access.ApiKey;
import org.sapotrace.access.Keys;
import org.sapotrace.http.Scope;

@Entity
@Table(name = "api_key")
@NullUnmarked
class KeyEntity {

  @Id String id;
  String name;

  @Column(name = "secret_sha256")
  String secretSha256;

  String[] scopes;
  String[] lines;

  @Column(name = "created_at")
  Instant createdAt;

  @Column(name = "created_by")
  String createdBy;

  @Column(name = "expires_at")
  Instant expiresAt;

  @Column(name = "last_used_at")
  Instant lastUsedAt;

  @Column(name = "revoked_at")
  Instant revokedAt;

  @Column(name = "revoked_by")
  String revokedBy;

  @Column(name = "revocation_reason")
  String revocationReason;

  static KeyEntity of(Keys.Kept kept) {
    ApiKey key = kept.key();
    KeyEntity entity = new KeyEntity();
    entity.id = key.id();
    entity.name = key.name();
    entity.secretSha256 = kept.secretHash();
    entity.scopes = key.scopes().stream().map(Scope::id).toArray(String[]::new);
    entity.lines = key.lines() == null ? null : key.lines().toArray(String[]::new);
    entity.createdAt = key.createdAt();
    entity.createdBy = key.createdBy();
    entity.expiresAt = key.expiresAt();
    return entity;
  }

  void take(ApiKey.Revocation revocation) {
    revokedAt = revocation.at();
    revokedBy = revocation.by();
    revocationReason = revocation.reason();
  }

  ApiKey toKey() {
    return new ApiKey(
        id,
        name,
        Stream.of(scopes).map(Scope::named).toList(),
        lines == null ? null : List.of(lines),
        createdAt,
        createdBy,
        expiresAt,
        lastUsedAt,
        revokedAt == null ? null : new ApiKey.Revocation(revokedAt, revokedBy, revocationReason));
  }
}
