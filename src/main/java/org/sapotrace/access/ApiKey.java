package org.sapotrace.access;

import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Scope;

/**
 * A key as it is on record, without its secret.
 *
 * @param id its identifier, which stands in the key and is no secret
 * @param name what or whom it is for
 * @param scopes what its holder may do, in their declared order
 * @param lines the slugs of the lines that its holder may touch, in alphabetical order; null for
 *     every line
 * @param createdBy who made it; null where the service did
 * @param expiresAt until when it is good, exclusive; null for ever
 * @param lastUsedAt when it was used last, to the minute; null for never
 * @param revocation null while it is not revoked
 */
public record ApiKey(
    String id,
    String name,
    List<Scope> scopes,
    @Nullable List<String> lines,
    Instant createdAt,
    @Nullable String createdBy,
    @Nullable Instant expiresAt,
    @Nullable Instant lastUsedAt,
    @Nullable Revocation revocation)
    implements Entitled {

  /** When, by whom and why a key was revoked. */
  public record Revocation(Instant at, @Nullable String by, String reason) {}

  public ApiKey {
    scopes = List.copyOf(scopes);
    lines = lines == null ? null : List.copyOf(lines);
  }

  boolean isGoodAt(Instant moment) {
    return revocation == null && (expiresAt == null || moment.isBefore(expiresAt));
  }

  @Override
  public @Nullable Set<String> reach() {
    return lines == null ? null : Set.copyOf(lines);
  }
}
