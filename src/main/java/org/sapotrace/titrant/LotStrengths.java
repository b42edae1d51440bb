package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Instant;
import org.sapotrace.bench.LotStrength;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.TitrantLots;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.StrengthHistory;
import org.sapotrace.refusal.Refusal;

/** Tells what the lots were worth, from their standardisations on record. */
@ApplicationScoped
// One titration that is refused does not spoil the others of an import.
@Transactional(dontRollbackOn = Refusal.class)
class LotStrengths implements TitrantLots {

  private final Lots lots;
  private final Results results;
  private final KnownLots knownLots;
  private final StandardisationValidity validity;

  LotStrengths(Lots lots, Results results, KnownLots knownLots, StandardisationValidity validity) {
    this.lots = lots;
    this.results = results;
    this.knownLots = knownLots;
    this.validity = validity;
  }

  @Override
  public LotStrength latest(String lot, Instant sampledAt) {
    return latest(knownLots.known(lot, this::held), sampledAt, LotCautions.SAMPLE);
  }

  /**
   * The strength of a lot at a time.
   *
   * @param dated how a caution begins that says of which day it is
   */
  LotStrength latest(KnownLot lot, Instant at, String dated) {
    DatedStrength last = lot.history().latest(at).orElse(null);
    return lot.strength(
        last == null ? null : last.normality(),
        false,
        LotCautions.of(lot.declared(), dated, at, last, validity));
  }

  @Override
  public LotStrength interpolated(String lot, Instant sampledAt) {
    KnownLot known = knownLots.known(lot, this::held);
    StrengthHistory history = known.history();
    DatedStrength nearest = history.nearest(sampledAt).orElse(null);
    return known.strength(
        history.interpolated(sampledAt).orElse(null),
        true,
        LotCautions.of(known.declared(), LotCautions.SAMPLE, sampledAt, nearest, validity));
  }

  private KnownLot held(String slug) {
    lots.hold(slug);
    return lots.lot(slug)
        .map(lot -> KnownLot.of(lot, results))
        .orElseThrow(
            () ->
                Refusal.impossible(
                    "#/titrant/lot", "There is no titrant lot %s on record.".formatted(slug)));
  }
}
