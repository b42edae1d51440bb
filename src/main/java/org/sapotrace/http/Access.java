package org.sapotrace.http;

/** Who may use the service. */
public enum Access {
  /** Whoever sits at the machine: nobody signs in, so the service listens on loopback only. */
  BENCH,
  /** Whoever holds a key. */
  KEYS
}
