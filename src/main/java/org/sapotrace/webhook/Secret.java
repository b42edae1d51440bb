package org.sapotrace.webhook;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;
import org.jspecify.annotations.Nullable;

/**
 * What a sender and a receiver share, so that the receiver knows whom a message is from.
 *
 * <p>The signature of a message (Standard Webhooks 1.0.0, "Signature scheme") is {@code v1,}
 * followed by the Base64 of HMAC-SHA256(secret, id.timestamp.body), the timestamp in seconds since
 * 1970.
 */
public final class Secret {

  /** How the text of a secret begins; Base64 follows. */
  public static final String PREFIX = "whsec_";

  private static final int FEWEST_BYTES = 24;
  private static final int MOST_BYTES = 64;
  private static final int NEW_BYTES = 32;
  private static final SecureRandom RANDOM = new SecureRandom();

  private final byte[] key;

  private Secret(byte[] key) {
    this.key = key;
  }

  /** A new secret that nobody can guess. */
  public static Secret random() {
    byte[] key = new byte[NEW_BYTES];
    RANDOM.nextBytes(key);
    return new Secret(key);
  }

  /**
   * The secret that a text stands for.
   *
   * @throws IllegalArgumentException unless it is {@value #PREFIX} and the Base64 of 24 to 64 bytes
   */
  public static Secret parse(String text) {
    try {
      if (text.startsWith(PREFIX)) {
        byte[] key = Base64.getDecoder().decode(text.substring(PREFIX.length()));
        if (key.length >= FEWEST_BYTES && key.length <= MOST_BYTES) {
          return new Secret(key);
        }
      }
    } catch (IllegalArgumentException notBase64) {
      // Refused below, without the text: it may be the secret of something else.
    }
    throw new IllegalArgumentException(
        "A secret is whsec_ and the Base64 of 24 to 64 bytes: make one of random bytes, or leave it out and one is made.");
  }

  /** The text that the receiver is given. */
  public String text() {
    return PREFIX + Base64.getEncoder().encodeToString(key);
  }

  /** The signature of a message. */
  public String sign(String id, Instant sentAt, String body) {
    try {
      Mac mac = Mac.getInstance("HmacSHA256");
      mac.init(new SecretKeySpec(key, "HmacSHA256"));
      String signed = "%s.%d.%s".formatted(id, sentAt.getEpochSecond(), body);
      byte[] signature = mac.doFinal(signed.getBytes(StandardCharsets.UTF_8));
      return "v1," + Base64.getEncoder().encodeToString(signature);
    } catch (GeneralSecurityException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Secret secret && MessageDigest.isEqual(key, secret.key);
  }

  @Override
  public int hashCode() {
    return Arrays.hashCode(key);
  }

  /** Tells nothing, so that no log does. */
  @Override
  public String toString() {
    return PREFIX + "…";
  }
}
