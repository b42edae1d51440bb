package org.sapotrace.review;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.titrant.TitrantLot;
import org.sapotrace.titrant.Titrants;

/**
 * What is on record of a titrant lot that results of a period count with.
 *
 * @param standardisations of the period, and the last before and the first behind it, between which
 *     strength is interpolated
 * @param restatements that changed results of the line in the period
 */
record LotReview(
    TitrantLot lot, List<Titrants.Standardised> standardisations, List<Restated> restatements) {

  /**
   * What a restatement did to the results of the line in the period. What it did to others is not
   * for everybody who may read this.
   *
   * @param from when the first sample was taken that it looked at; null for all
   * @param changed how many got a new revision
   * @param turned how many of them another verdict
   */
  record Restated(Instant at, @Nullable Instant from, String reason, int changed, int turned) {}
}
