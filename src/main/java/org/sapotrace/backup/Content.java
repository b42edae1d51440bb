package org.sapotrace.backup;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What a backup holds of one table. The list of these is the last entry of the file, so that a file
 * that was cut off has none.
 *
 * @param rows at least 0
 * @param digest SHA-256 of the table's entry, in hexadecimal
 */
record Content(String table, long rows, String digest) {

  /** The name of the entry that lists the contents. */
  static final String LIST = "contents";

  static byte[] list(List<Content> contents) {
    return contents.stream()
        .map(content -> content.table + " " + content.rows + " " + content.digest + "\n")
        .collect(Collectors.joining())
        .getBytes(UTF_8);
  }

  static MessageDigest sha256() {
    try {
      return MessageDigest.getInstance("SHA-256");
    } catch (NoSuchAlgorithmException everyJavaHasIt) {
      throw new IllegalStateException(everyJavaHasIt);
    }
  }

  static Content of(String table, long rows, MessageDigest digest) {
    return new Content(table, rows, HexFormat.of().formatHex(digest.digest()));
  }
}
