package org.sapotrace.http;

import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A part of a list.
 *
 * @param items its entries, in the order of the list
 * @param next the cursor of the part that follows; null at the end
 */
public record Page<T>(List<T> items, @Nullable String next) {

  public Page {
    items = List.copyOf(items);
  }

  /**
   * The page that was asked for.
   *
   * @param found the entries after the cursor, at most one more than the page's size; that one more
   *     tells that the list goes on
   * @param size the page's size
   * @param list names the list, as in {@link Cursor#text}
   * @param place where an entry lies in the list
   */
  public static <T> Page<T> of(
      List<T> found, int size, String list, Function<? super T, Cursor> place) {
    if (found.size() <= size) {
      return new Page<>(found, null);
    }
    List<T> items = found.subList(0, size);
    return new Page<>(items, place.apply(items.get(size - 1)).text(list));
  }

  /**
   * The page that was asked for of a list that stays as it is.
   *
   * @param list names the list, as in {@link Cursor#text}
   * @param id the identifier of an entry
   */
  public static <T> Page<T> ofFixed(
      List<T> all, PageRequest asked, String list, Function<? super T, String> id) {
    Cursor after = asked.after(list);
    int from = after == null ? 0 : Integer.parseInt(after.key());
    return of(
        all.stream().skip(from).limit(asked.size() + 1L).toList(),
        asked.size(),
        list,
        last -> new Cursor(String.valueOf(all.indexOf(last) + 1), id.apply(last)));
  }

  /** The same page of what the entries become. */
  public <R> Page<R> map(Function<? super T, ? extends R> view) {
    return new Page<>(items.stream().<R>map(view).toList(), next);
  }

  /** The answer, with the {@code Link} to the next part that RFC 8288 describes. */
  public Response answer(UriInfo asked) {
    Response.ResponseBuilder answer = Response.ok(this);
    if (next != null) {
      // Relative, as the name under which the service is reached is the caller's affair.
      var link = asked.getRequestUriBuilder().replaceQueryParam("cursor", next).build();
      answer.header(
          "Link", "<%s?%s>; rel=\"next\"".formatted(link.getRawPath(), link.getRawQuery()));
    }
    return answer.build();
  }
}
