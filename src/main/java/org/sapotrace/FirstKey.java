package org.sapotrace;

import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Singleton;
import org.sapotrace.access.KeyRing;
import org.sapotrace.http.Access;

/** Hands the first key to whoever starts the service. */
@Singleton
class FirstKey {

  private final Access access;
  private final KeyRing keys;

  FirstKey(Access access, KeyRing keys) {
    this.access = access;
    this.keys = keys;
  }

  /** On the standard output and not through the log, which may be kept or sent elsewhere. */
  void show(@Observes StartupEvent start) {
    if (access == Access.KEYS) {
      keys.makeFirst()
          .ifPresent(
              made ->
                  System.out.printf(
                      "No key administers this service yet. This one does, and is shown this once:%n"
                          + "%n  %s%n%n",
                      made.text()));
    }
  }
}
