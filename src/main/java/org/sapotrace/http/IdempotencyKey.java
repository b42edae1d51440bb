package org.sapotrace.http;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The key by which a repeat is recognised: a string in quotes (RFC 9651, section 3.3.3), as the
 * draft of the IETF's HTTPAPI working group has it, or the same without quotes, as most send it.
 */
final class IdempotencyKey {

  static final String HEADER = "Idempotency-Key";

  private static final int LONGEST = 255;

  private IdempotencyKey() {}

  /**
   * The key in a request's headers.
   *
   * @return from 1 to {@value #LONGEST} visible ASCII characters and spaces; null for none
   * @throws RuntimeException that becomes a 400 where it is none, or there are several
   */
  static @Nullable String of(List<String> headers) {
    if (headers.isEmpty()) {
      return null;
    }
    String key = headers.size() == 1 ? unquoted(headers.get(0).strip()) : "";
    if (key.isEmpty()
        || key.length() > LONGEST
        || !key.chars().allMatch(c -> c >= ' ' && c <= '~')) {
      throw Problem.of(
              ProblemType.BAD_PARAMETER,
              "Idempotency-Key must be one string of 1 to %d ASCII characters, such as a new UUID."
                  .formatted(LONGEST))
          .asException();
    }
    return key;
  }

  private static String unquoted(String header) {
    boolean quoted = header.length() > 1 && header.startsWith("\"") && header.endsWith("\"");
    return quoted
        ? header.substring(1, header.length() - 1).replaceAll("\\\\([\\\\\"])", "$1")
        : header;
  }
}
