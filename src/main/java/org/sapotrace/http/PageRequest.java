package org.sapotrace.http;

import java.util.regex.Pattern;
import org.jboss.resteasy.reactive.RestQuery;
import org.jspecify.annotations.Nullable;

/**
 * Which part of a list is asked for, by {@code ?limit=} and {@code ?cursor=}. A resource takes it
 * as a {@link jakarta.ws.rs.BeanParam}.
 */
public final class PageRequest {

  /** How many entries a page has unless told otherwise. */
  public static final int DEFAULT_SIZE = 100;

  /** The most entries a page may have. */
  public static final int LARGEST_SIZE = 1000;

  private static final Pattern DIGITS = Pattern.compile("[0-9]{1,4}");

  @RestQuery @Nullable String limit;
  @RestQuery @Nullable String cursor;

  /**
   * How many entries are wanted, 1 to {@value #LARGEST_SIZE}; a 400 where that is not what was
   * asked.
   */
  public int size() {
    if (limit == null) {
      return DEFAULT_SIZE;
    }
    int size = DIGITS.matcher(limit).matches() ? Integer.parseInt(limit) : 0;
    if (size >= 1 && size <= LARGEST_SIZE) {
      return size;
    }
    throw Problem.of(
            ProblemType.BAD_PARAMETER,
            "limit must be a whole number from 1 to " + LARGEST_SIZE + ".")
        .asException();
  }

  /**
   * The place after which entries are wanted; null for the beginning.
   *
   * @param list names the list, as in {@link Cursor#text}
   */
  public @Nullable Cursor after(String list) {
    return cursor == null ? null : Cursor.parse(cursor, list);
  }
}
