package org.sapotrace.attribution;

/** What may be behind a shift. */
public enum Cause {
  /** The wash takes off another part of the soap than before. */
  WASH("wash"),
  /** The crude holds another amount of soap than before. */
  FEED("feed"),
  /** The titrant is weaker or stronger than it is taken for. */
  TITRANT("titrant"),
  /** Solvent and indicator consume more or less than is taken off. */
  BLANK("blank"),
  /** Nothing: what shifted lies within what measuring alone does. */
  MEASUREMENT("measurement"),
  /** The evidence does not tell. */
  UNDECIDED("undecided");

  private final String id;

  Cause(String id) {
    this.id = id;
  }

  /** The name in the interface, such as {@code wash}. */
  public String id() {
    return id;
  }
}
