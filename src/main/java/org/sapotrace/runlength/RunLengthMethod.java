package org.sapotrace.runlength;

/** How a mean run length was found. */
public enum RunLengthMethod {
  /** Exactly, from a finite Markov chain. */
  MARKOV_CHAIN("markov-chain"),
  /** Exactly, from an integral equation: to at least six significant digits. */
  INTEGRAL_EQUATION("integral-equation"),
  /** From simulated results: with a standard error, and the same each time it is asked for. */
  SIMULATION("simulation");

  private final String id;

  RunLengthMethod(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code markov-chain}. */
  public String id() {
    return id;
  }
}
