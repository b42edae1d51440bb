package org.sapotrace.bench;

import java.time.Instant;

/** What somebody or something entered, as it was typed. */
public sealed interface Entry permits Titration, MeasuredElsewhere {

  String batch();

  /** When the sample was taken. */
  Instant sampledAt();
}
