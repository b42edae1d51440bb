package org.sapotrace.chemistry;

/** What to do after a verdict. */
public enum Advice {
  RELEASE("release"),
  REWASH("rewash"),
  RETEST("retest"),
  HOLD("hold"),
  FLUSH_ON("flush-on"),
  NONE("none");

  private final String id;

  Advice(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code flush-on}. */
  public String id() {
    return id;
  }
}
