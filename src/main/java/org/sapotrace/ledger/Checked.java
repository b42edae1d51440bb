package org.sapotrace.ledger;

/** Has the ledger on record checked. */
public interface Checked {

  /**
   * Checks all of it, in a transaction that has read nothing yet.
   *
   * @return what {@link LedgerCheck} finds
   */
  Verification verification();
}
