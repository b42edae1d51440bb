package org.sapotrace.detection;

/** What goes wrong in a simulated plant. */
enum Fault {
  /** The wash takes off less and less. */
  WASH,
  /** The crude gets soapier, and the wash takes off the same part of it. */
  FEED,
  /** The titrant gets weaker, so that everything titrated with it reads high. */
  TITRANT,
  /** Solvent and indicator consume more than the blank that is taken off. */
  BLANK
}
