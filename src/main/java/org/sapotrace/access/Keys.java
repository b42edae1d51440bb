package org.sapotrace.access;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** The keys on record. */
public interface Keys {

  /**
   * A key with what is kept of its secret.
   *
   * @param secretHash SHA-256 in hexadecimal digits
   */
  record Kept(ApiKey key, String secretHash) {}

  /** Keeps others from adding or changing keys until the transaction ends. */
  void hold();

  void add(Kept kept);

  Optional<Kept> kept(String id);

  /** The key, held against every other writer until the transaction ends. */
  Optional<ApiKey> lock(String id);

  /**
   * The keys in the order in which they were made.
   *
   * @param exclusive those after this one; null for the first
   */
  List<ApiKey> after(@Nullable ApiKey exclusive, int most);

  /** Notes a use, unless one was noted at that time or later. */
  void noteUse(String id, Instant at, Instant unlessSince);

  void revoke(String id, ApiKey.Revocation revocation);
}
