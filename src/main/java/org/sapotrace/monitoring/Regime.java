package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.Optional;

/**
 * By what the results of a stream are judged.
 *
 * @param revisions of the limits, so that {@code revisions.get(r - 1)} is revision r
 * @param phases at whose beginnings everything starts afresh
 */
record Regime(List<LimitsRevision> revisions, Phases phases) {

  /** The revision that judges a sample taken then: the latest of those that cover it. */
  Optional<LimitsRevision> inForce(Instant sampledAt) {
    return revisions.stream()
        .filter(revision -> revision.covers(sampledAt, phases))
        .reduce((earlier, later) -> later);
  }

  /** Whether the phase of a sample may have trial limits, and has none yet. */
  boolean awaitsTrial(Instant sampledAt) {
    return revisions.stream()
        .noneMatch(limits -> limits.isAdopted() || limits.isFromPhaseOf(sampledAt, phases));
  }

  /** Whether the limits laid down last are to be estimated once more. */
  boolean hasPlan() {
    return !revisions.isEmpty() && !revisions.get(revisions.size() - 1).reestimateAt().isEmpty();
  }
}
