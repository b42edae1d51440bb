package org.sapotrace.access;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Caller;
import org.sapotrace.http.Callers;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.http.Scope;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.refusal.Refusal;

/** Makes keys, knows them again, and revokes them. */
@ApplicationScoped
@Transactional
public class KeyRing implements Callers {

  /** How exactly it is known when a key was used last; not each request writes it down. */
  private static final Duration USE_NOTED_EVERY = Duration.ofMinutes(1);

  /**
   * A key that was made just now.
   *
   * @param text the whole key with its secret, to be told to its holder and then forgotten
   */
  public record Made(ApiKey key, String text) {
    @Override
    public String toString() {
      return key.toString();
    }
  }

  private final Keys keys;
  private final ProductLines productLines;
  private final CurrentCaller caller;
  private final InstantSource clock;

  KeyRing(Keys keys, ProductLines productLines, CurrentCaller caller, InstantSource clock) {
    this.keys = keys;
    this.productLines = productLines;
    this.caller = caller;
    this.clock = clock;
  }

  /**
   * Makes a key.
   *
   * @throws Refusal if it would be for a line that is not there, or is good no longer already
   */
  public Made make(NewKey wanted) {
    List<String> lines = wanted.lines() == null ? List.of() : wanted.lines();
    IntStream.range(0, lines.size()).forEach(i -> requireLine("#/lines/" + i, lines.get(i)));
    Instant expiry = wanted.expiresAt();
    if (expiry != null && !expiry.isAfter(clock.instant())) {
      throw Refusal.impossible("#/expiresAt", "The key would have expired already.");
    }
    KeyText text = KeyText.drawn();
    ApiKey key =
        new ApiKey(
            text.id(),
            wanted.name(),
            wanted.scopes(),
            wanted.lines(),
            clock.instant(),
            callerId(),
            expiry,
            null,
            null);
    keys.add(new Keys.Kept(key, text.hash()));
    return new Made(key, text.text());
  }

  private void requireLine(String pointer, String slug) {
    try {
      productLines.line(slug);
    } catch (Refusal none) {
      throw Refusal.impossible(pointer, String.valueOf(none.getMessage()));
    }
  }

  /**
   * Makes a key to begin with: one that administers, where there is none that is good. Of several
   * processes that start together one makes it.
   */
  public Optional<Made> makeFirst() {
    keys.hold();
    Instant now = clock.instant();
    boolean isThere =
        keys.after(null, Integer.MAX_VALUE).stream()
            .anyMatch(key -> key.may(Scope.ADMINISTER) && key.isGoodAt(now));
    return isThere
        ? Optional.empty()
        : Optional.of(make(new NewKey("first key", List.of(Scope.ADMINISTER), null, null)));
  }

  @Override
  public Optional<ApiKey> holding(String text) {
    return KeyText.parse(text).flatMap(this::known);
  }

  private Optional<ApiKey> known(KeyText given) {
    Instant now = clock.instant();
    Optional<ApiKey> found =
        keys.kept(given.id())
            .filter(kept -> given.hasHash(kept.secretHash()))
            .map(Keys.Kept::key)
            .filter(key -> key.isGoodAt(now));
    found
        .filter(key -> !wasUsedSince(key, now.minus(USE_NOTED_EVERY)))
        .ifPresent(
            key ->
                keys.noteUse(
                    key.id(), now.truncatedTo(ChronoUnit.SECONDS), now.minus(USE_NOTED_EVERY)));
    return found;
  }

  private static boolean wasUsedSince(ApiKey key, Instant moment) {
    return key.lastUsedAt() != null && key.lastUsedAt().isAfter(moment);
  }

  public ApiKey key(String id) {
    return keys.kept(id).map(Keys.Kept::key).orElseThrow(() -> none(id));
  }

  /**
   * The keys in the order in which they were made.
   *
   * @param exclusive the identifier of the key after which to begin; null for the first
   */
  public List<ApiKey> after(@Nullable String exclusive, int most) {
    return keys.after(exclusive == null ? null : key(exclusive), most);
  }

  /**
   * Ends a key at once and for good.
   *
   * @throws Refusal if it was revoked before
   */
  public ApiKey revoke(String id, String reason) {
    ApiKey key = keys.lock(id).orElseThrow(() -> none(id));
    if (key.revocation() != null) {
      throw Refusal.conflict("Key %s was revoked already.".formatted(id));
    }
    keys.revoke(id, new ApiKey.Revocation(clock.instant(), callerId(), reason));
    return key(id);
  }

  private @Nullable String callerId() {
    return caller.get().map(Caller::id).orElse(null);
  }

  private static Refusal none(String id) {
    return Refusal.unknown("There is no key %s.".formatted(id));
  }
}
