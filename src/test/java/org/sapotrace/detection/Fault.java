package org.sapotrace.detection;

import org.sapotrace.attribution.Cause;

/** What goes wrong in a simulated plant. */
enum Fault {
  /** The wash takes off less and less. */
  WASH("a failing wash", Cause.WASH),
  /** The crude gets soapier, and the wash takes off the same part of it. */
  FEED("a soapier feed", Cause.FEED),
  /** The titrant gets weaker, so that everything titrated with it reads high. */
  TITRANT("a weaker titrant", Cause.TITRANT),
  /** Solvent and indicator consume more than the blank that is taken off. */
  BLANK("a growing blank", Cause.BLANK);

  private final String label;
  private final Cause cause;

  Fault(String label, Cause cause) {
    this.label = label;
    this.cause = cause;
  }

  String label() {
    return label;
  }

  Cause cause() {
    return cause;
  }

  /** Whether it moves all lines of the plant. */
  boolean isShared() {
    return this == TITRANT || this == BLANK;
  }
}
