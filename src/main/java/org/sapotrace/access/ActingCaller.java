package org.sapotrace.access;

import jakarta.enterprise.context.ApplicationScoped;
import org.sapotrace.http.Caller;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.ledger.Actors;

/** Whoever made the request; the service for whatever comes without one. */
@ApplicationScoped
class ActingCaller implements Actors {

  private final CurrentCaller caller;

  ActingCaller(CurrentCaller caller) {
    this.caller = caller;
  }

  @Override
  public String current() {
    return caller.get().map(Caller::id).orElse(SERVICE);
  }
}
