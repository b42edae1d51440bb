package org.sapotrace.access.rest;

import com.fasterxml.jackson.annotation.JsonUnwrapped;
import org.jspecify.annotations.Nullable;
import org.sapotrace.access.ApiKey;
import org.sapotrace.access.KeyRing;
import org.sapotrace.http.ShownOnce;

/**
 * A key as it is answered to whoever had it made.
 *
 * @param key with its secret; null in the answer to a repeat
 */
record MadeKey(@JsonUnwrapped ApiKey made, @Nullable String key) implements ShownOnce {

  static MadeKey of(KeyRing.Made made) {
    return new MadeKey(made.key(), made.text());
  }

  @Override
  public MadeKey withoutSecret() {
    return new MadeKey(made, null);
  }

  @Override
  public String toString() {
    return made.toString();
  }
}
