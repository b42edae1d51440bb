package org.sapotrace.ledger;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.InstantSource;

/** Makes the heads, each in a transaction of its own. */
@ApplicationScoped
@Transactional
public class HeadMaking {

  private final Heads heads;
  private final InstantSource clock;

  HeadMaking(Heads heads, InstantSource clock) {
    this.heads = heads;
    this.clock = clock;
  }

  /** Makes the next head, unless somebody else is at it or no chain went on. */
  void makeUnlessBusy() {
    heads.makeUnlessBusy(clock.instant());
  }
}
