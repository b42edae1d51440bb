package org.sapotrace.backup;

import java.util.List;

/** How much was copied from or into a database. */
public record Copied(int tables, long rows) {

  static Copied of(List<Content> contents) {
    return new Copied(contents.size(), contents.stream().mapToLong(Content::rows).sum());
  }

  @Override
  public String toString() {
    return "%d rows of %d tables".formatted(rows, tables);
  }
}
