package org.sapotrace.ledger;

/** Tells who acts. */
public interface Actors {

  /** What the service does of its own accord. */
  String SERVICE = "service";

  /** The name of whoever acts at this moment. */
  String current();
}
