package org.sapotrace.access;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Scope;
import org.sapotrace.refusal.Refusal;

/**
 * A key that is wanted.
 *
 * @param name what or whom it is for
 * @param scopes what its holder may do, at least one
 * @param lines the slugs of the lines that its holder may touch; null for every line
 * @param expiresAt until when it is good, exclusive; null for ever
 */
public record NewKey(
    String name, List<Scope> scopes, @Nullable List<String> lines, @Nullable Instant expiresAt) {

  public NewKey {
    scopes = inOrder(scopes);
    lines = lines == null ? null : inOrder(lines);
    if (lines != null && scopes.contains(Scope.ADMINISTER)) {
      throw Refusal.impossible(
          "#/lines",
          "Who administers can give out keys for any line: leave lines out, or choose other scopes.");
    }
  }

  private static <T extends Comparable<? super T>> List<T> inOrder(Collection<T> any) {
    return Set.copyOf(any).stream().sorted().toList();
  }
}
