package org.sapotrace.http;

import java.util.Optional;

/** Tells callers by what they hold. */
public interface Callers {

  /**
   * The caller who holds a key, whose use is noted.
   *
   * @param key as it was sent, whatever that is
   * @return empty where there is no such key, or it is good no longer
   */
  Optional<? extends Caller> holding(String key);
}
