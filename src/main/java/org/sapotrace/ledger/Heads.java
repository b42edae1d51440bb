package org.sapotrace.ledger;

import java.time.Instant;

/** The heads on record. */
public interface Heads {

  /**
   * Waits for its turn and makes the next head, if any chain went on; it tells of what is
   * committed.
   */
  void make(Instant at);

  /** The same, unless somebody else is at it. */
  void makeUnlessBusy(Instant at);
}
