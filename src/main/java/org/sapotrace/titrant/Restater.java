package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import java.time.InstantSource;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Recalculation;
import org.sapotrace.productline.ProductLines;
import org.sapotrace.refusal.Refusal;

/*
 * Not one transaction, but one for each stream: none has to wait for another. If the service ends
 * in the middle, the same request made again does what is left, since results that count with the
 * interpolated strength already get no further revision.
 */
/** Restates the results that were found with a titrant lot. */
@ApplicationScoped
@Transactional
public class Restater {

  private final ProductLines productLines;
  private final Titrants titrants;
  private final Recalculation recalculation;
  private final Restatements restatements;
  private final InstantSource clock;

  Restater(
      ProductLines productLines,
      Titrants titrants,
      Recalculation recalculation,
      Restatements restatements,
      InstantSource clock) {
    this.productLines = productLines;
    this.titrants = titrants;
    this.recalculation = recalculation;
    this.restatements = restatements;
    this.clock = clock;
  }

  /**
   * Computes the results of a lot again, interpolating its strength between its standardisations.
   *
   * @param from when the first sample was taken (inclusive); null for all
   * @param reason why; it stands in each new revision
   * @throws Refusal if there is no such lot, or none of its standardisations counts
   */
  @Transactional(Transactional.TxType.NOT_SUPPORTED)
  public Restatement restate(String lot, @Nullable Instant from, String reason) {
    productLines.requireEveryLine();
    if (!titrants.isStandardised(lot)) {
      throw Refusal.conflict(
          "Lot %s has no standardisation that counts: record one, and restate the results then."
              .formatted(lot));
    }
    String why = "titrant lot %s was restated: %s".formatted(lot, reason);
    List<Recalculation.Outcome> outcomes = new ArrayList<>();
    try {
      for (UUID stream : recalculation.streamsTitratedWith(lot, from)) {
        outcomes.add(recalculation.interpolate(stream, lot, from, why));
      }
    } catch (RuntimeException failure) {
      // What did change must be found on record, although the rest is still to be done.
      keep(lot, from, reason, outcomes);
      throw failure;
    }
    return keep(lot, from, reason, outcomes);
  }

  private Restatement keep(
      String lot, @Nullable Instant from, String reason, List<Recalculation.Outcome> outcomes) {
    return titrants.keep(
        lot, id -> Restatement.of(id, lot, from, reason, clock.instant(), outcomes));
  }

  /**
   * A restatement on record, with the results that are in the caller's reach.
   *
   * @throws Refusal if there is no such lot or restatement
   */
  public Restatement restatement(String lot, UUID id) {
    return restatements
        .restatement(titrants.lot(lot).declared().slug(), id)
        .map(this::inReach)
        .orElseThrow(() -> Refusal.unknown("Lot %s has no restatement %s.".formatted(lot, id)));
  }

  /**
   * The restatements of a lot, likewise, oldest first.
   *
   * @param after the identifier behind which to begin (exclusive); null for the beginning
   */
  public List<Restatement> restatements(String lot, @Nullable UUID after, int most) {
    return restatements.ofLot(titrants.lot(lot).declared().slug(), after, most).stream()
        .map(this::inReach)
        .toList();
  }

  private Restatement inReach(Restatement restatement) {
    return restatement.only(productLines::isInReach, recalculation::isInReach);
  }
}
