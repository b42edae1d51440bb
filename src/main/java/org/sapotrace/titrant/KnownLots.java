package org.sapotrace.titrant;

import jakarta.transaction.TransactionScoped;
import java.util.HashMap;
import java.util.Map;
import java.util.function.Function;

/** The lots that one transaction has looked at: an import looks at each of them once. */
@TransactionScoped
class KnownLots {

  private final Map<String, KnownLot> bySlug = new HashMap<>();

  KnownLot known(String slug, Function<String, KnownLot> lookUp) {
    KnownLot known = bySlug.get(slug);
    if (known == null) {
      known = lookUp.apply(slug);
      bySlug.put(slug, known);
    }
    return known;
  }
}
