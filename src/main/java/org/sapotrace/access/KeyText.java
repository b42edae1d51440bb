package org.sapotrace.access;

import static java.nio.charset.StandardCharsets.US_ASCII;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.HexFormat;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * A key as its holder has it: {@code sapo_}, its identifier, {@code _}, and a secret of 256 bits in
 * URL-safe Base64. The beginning lets whoever searches for leaked secrets recognise one.
 *
 * <p>Of the secret nothing is kept but its SHA-256. A slow hash would gain nothing: what slows down
 * the guessing of passwords is not needed against 256 random bits.
 */
record KeyText(String id, String secret) {

  private static final Pattern FORM = Pattern.compile("sapo_([0-9a-f]{16})_([A-Za-z0-9_-]{43})");
  private static final int ID_BYTES = 8;
  private static final int SECRET_BYTES = 32;
  private static final SecureRandom RANDOM = new SecureRandom();

  /** A key that nobody has yet. */
  static KeyText drawn() {
    byte[] id = new byte[ID_BYTES];
    RANDOM.nextBytes(id);
    byte[] secret = new byte[SECRET_BYTES];
    RANDOM.nextBytes(secret);
    return new KeyText(
        HexFormat.of().formatHex(id),
        Base64.getUrlEncoder().withoutPadding().encodeToString(secret));
  }

  /** The key that somebody sent; empty for any text that is none. */
  static Optional<KeyText> parse(String text) {
    Matcher parts = FORM.matcher(text);
    return parts.matches()
        ? Optional.of(new KeyText(parts.group(1), parts.group(2)))
        : Optional.empty();
  }

  /** The SHA-256 of the secret, in hexadecimal digits. */
  String hash() {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(secret.getBytes(US_ASCII));
      return HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  /** Whether that is the hash of this secret, told in the same time whether it is or not. */
  boolean hasHash(String kept) {
    return MessageDigest.isEqual(hash().getBytes(US_ASCII), kept.getBytes(US_ASCII));
  }

  /** The whole key; the one place where it may come from. */
  String text() {
    return "sapo_" + id + "_" + secret;
  }

  /** Without the secret, which must not come into a log by accident. */
  @Override
  public String toString() {
    return "sapo_" + id + "_…";
  }
}
