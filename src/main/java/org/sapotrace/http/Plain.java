package org.sapotrace.http;

/** Which characters are plain text. */
final class Plain {

  private static final int REPLACEMENT = 0xFFFD;

  private Plain() {}

  /** Whether a text can be stored and sent at all: no NUL and no half of a surrogate pair. */
  static boolean isStorable(String text) {
    return text.codePoints().noneMatch(c -> c == 0 || isLoneSurrogate(c));
  }

  /**
   * Whether a text also shows what it holds: neither control characters, nor characters that change
   * the direction of what follows them or cannot be seen.
   *
   * @param multiline whether line feeds and tabs are let through
   */
  static boolean isReadable(String text, boolean multiline) {
    return text.codePoints()
        .allMatch(c -> isReadable(c) || (multiline && (c == '\n' || c == '\r' || c == '\t')));
  }

  /** The text with whatever is not readable replaced, and cut where it is too long. */
  static String text(String text, int longest) {
    StringBuilder plain = new StringBuilder();
    text.codePoints()
        .limit(longest)
        .map(c -> isReadable(c) ? c : REPLACEMENT)
        .forEach(plain::appendCodePoint);
    if (text.codePointCount(0, text.length()) > longest) {
      plain.append('…');
    }
    return plain.toString();
  }

  private static boolean isReadable(int c) {
    return switch (Character.getType(c)) {
      case Character.CONTROL,
          Character.FORMAT,
          Character.SURROGATE,
          Character.LINE_SEPARATOR,
          Character.PARAGRAPH_SEPARATOR ->
          false;
      default -> true;
    };
  }

  private static boolean isLoneSurrogate(int c) {
    return Character.getType(c) == Character.SURROGATE;
  }
}
