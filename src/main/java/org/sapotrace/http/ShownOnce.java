package org.sapotrace.http;

/** An answer that holds a secret, which is told once and kept nowhere. */
public interface ShownOnce {

  /** The same answer without its secret: what is kept of it, and told to a repeat. */
  Object withoutSecret();
}
