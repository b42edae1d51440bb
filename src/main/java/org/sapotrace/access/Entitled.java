package org.sapotrace.access;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.http.Caller;
import org.sapotrace.http.Scope;

/** A caller who may do some things, on some lines. */
interface Entitled extends Caller {

  List<Scope> scopes();

  /** The slugs of the lines that the caller may touch; null for every line. */
  @Nullable Set<String> reach();

  @Override
  default boolean may(Scope scope) {
    return scopes().contains(scope) || scopes().contains(Scope.ADMINISTER);
  }
}
