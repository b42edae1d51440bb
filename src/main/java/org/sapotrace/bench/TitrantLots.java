package org.sapotrace.bench;

import java.time.Instant;
import org.sapotrace.refusal.Refusal;

/** What the titrant lots on record were worth, as whoever keeps them tells it. */
public interface TitrantLots {

  /**
   * The strength by which a titration of a sample taken then counts: the latest standardisation
   * before it, or the lot's nominal normality where there was none.
   *
   * @throws Refusal if there is no such lot
   */
  LotStrength latest(String lot, Instant sampledAt);

  /**
   * The strength by interpolation between the standardisations on either side; outside the first
   * and the last of them the nearest holds.
   *
   * @throws Refusal if there is no such lot
   */
  LotStrength interpolated(String lot, Instant sampledAt);
}
