package org.sapotrace.access;

import jakarta.enterprise.context.ApplicationScoped;
import java.util.Optional;
import java.util.Set;
import org.sapotrace.http.CurrentCaller;
import org.sapotrace.ledger.LinesShown;
import org.sapotrace.productline.LinesInReach;

/** The lines of whoever made a request; every line for whatever comes without anybody. */
@ApplicationScoped
class ReachOfCaller implements LinesInReach, LinesShown {

  private final CurrentCaller caller;

  ReachOfCaller(CurrentCaller caller) {
    this.caller = caller;
  }

  @Override
  public Optional<Set<String>> slugs() {
    return caller
        .get()
        .flatMap(
            who ->
                who instanceof Entitled known
                    ? Optional.ofNullable(known.reach())
                    : Optional.empty());
  }
}
