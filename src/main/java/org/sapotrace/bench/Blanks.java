package org.sapotrace.bench;

import java.time.Instant;
import java.util.List;

/** The blanks on record. */
public interface Blanks {

  /** As far back as solvent and indicator are taken to be the same; common practice, no source. */
  int MOST = 30;

  /**
   * The latest blanks of a line: what its streams with the sampling point {@code blank} and the
   * unit mL hold. What was withdrawn is not among them.
   *
   * @param sampledAt none is later
   * @param most how many at most
   * @return each in mL, the latest first
   */
  List<Double> latest(String line, Instant sampledAt, int most);
}
