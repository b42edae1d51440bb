package org.sapotrace.ledger;

import java.io.IOException;
import java.io.UncheckedIOException;
import org.erdtman.jcs.JsonCanonicalizer;
import org.jspecify.annotations.Nullable;

/** JSON in the one form that RFC 8785 gives it, so that the same data has the same hash. */
public final class CanonicalJson {

  private CanonicalJson() {}

  /**
   * An object or array in its canonical form.
   *
   * @throws UncheckedIOException if the text is no such JSON
   */
  public static String of(String json) {
    try {
      return new JsonCanonicalizer(json).getEncodedString();
    } catch (IOException notJson) {
      throw new UncheckedIOException(notJson);
    }
  }

  /** A string in its canonical form (RFC 8785, section 3.2.2.2); null as JSON's null. */
  static String quoted(@Nullable String text) {
    if (text == null) {
      return "null";
    }
    StringBuilder quoted = new StringBuilder(text.length() + 2).append('"');
    text.chars().forEach(c -> append((char) c, quoted));
    return quoted.append('"').toString();
  }

  private static void append(char c, StringBuilder quoted) {
    switch (c) {
      case '"', '\\' -> quoted.append('\\').append(c);
      case '\b' -> quoted.append("\\b");
      case '\t' -> quoted.append("\\t");
      case '\n' -> quoted.append("\\n");
      case '\f' -> quoted.append("\\f");
      case '\r' -> quoted.append("\\r");
      default -> {
        if (c < ' ') {
          quoted.append("\\u%04x".formatted((int) c));
        } else {
          quoted.append(c);
        }
      }
    }
  }
}
