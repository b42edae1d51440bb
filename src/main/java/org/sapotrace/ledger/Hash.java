package org.sapotrace.ledger;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4) of text in UTF-8, in hexadecimal digits. */
final class Hash {

  /** What the first of a chain holds in the place of a hash before it. */
  static final String NONE = "0".repeat(64);

  private Hash() {}

  static String of(String text) {
    try {
      byte[] digest = MessageDigest.getInstance("SHA-256").digest(text.getBytes(UTF_8));
      return HexFormat.of().formatHex(digest);
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  /**
   * The hash of a link: {@code SHA-256(previous ‖ U+000A ‖ link)}.
   *
   * @param previous the hash before it, in hexadecimal digits
   * @param link what it holds, as canonical JSON
   */
  static String of(String previous, String link) {
    return of(previous + "\n" + link);
  }
}
