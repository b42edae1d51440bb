package org.sapotrace.http;

import java.util.Arrays;

/** What somebody may do; none includes another but {@link #ADMINISTER}, which includes them all. */
public enum Scope {
  /** Look at what is on record, and calculate. */
  READ("read"),
  /** Add to the record: titrations, results and their corrections, titrant lots. */
  RECORD("record"),
  /** Say by what is judged: lines, streams, limits, restatements. */
  REVIEW("review"),
  /** Say who may do what, and all the rest. */
  ADMINISTER("administer");

  private final String id;

  Scope(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code read}. */
  public String id() {
    return id;
  }

  /**
   * The scope of that name.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static Scope named(String id) {
    return Arrays.stream(values())
        .filter(scope -> scope.id.equals(id))
        .findFirst()
        .orElseThrow(() -> new IllegalArgumentException("There is no scope " + id + "."));
  }
}
