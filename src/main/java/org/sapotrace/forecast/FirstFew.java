package org.sapotrace.forecast;

import java.util.List;

/** Names in a sentence that is to stay one. */
final class FirstFew {

  private static final int NAMED = 3;

  private FirstFew() {}

  /** The first three of some names, and how many more there are. */
  static String of(List<String> names) {
    String first = String.join(", ", names.subList(0, Math.min(NAMED, names.size())));
    return names.size() <= NAMED ? first : "%s and %d more".formatted(first, names.size() - NAMED);
  }
}
