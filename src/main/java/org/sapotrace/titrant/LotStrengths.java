package org.sapotrace.titrant;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.transaction.Transactional;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Figure;
import org.sapotrace.bench.LotStrength;
import org.sapotrace.bench.RecordedResult;
import org.sapotrace.bench.Results;
import org.sapotrace.bench.TitrantLots;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.refusal.Refusal;

/** Tells what the lots were worth, from their standardisations on record. */
@ApplicationScoped
// One titration that is refused does not spoil the others of an import.
@Transactional(dontRollbackOn = Refusal.class)
class LotStrengths implements TitrantLots {

  private final Lots lots;
  private final Results results;
  private final StandardisationValidity validity;

  LotStrengths(Lots lots, Results results, StandardisationValidity validity) {
    this.lots = lots;
    this.results = results;
    this.validity = validity;
  }

  @Override
  public LotStrength latest(String lot, Instant sampledAt) {
    return latest(held(lot), sampledAt, LotCautions.SAMPLE);
  }

  /** The strength of a lot as it was then, whatever it is wanted for. */
  LotStrength at(TitrantLot lot, Instant at) {
    return latest(lot, at, LotCautions.STRENGTH);
  }

  private LotStrength latest(TitrantLot lot, Instant at, String dated) {
    DatedStrength last = before(lot.stream(), at).orElse(null);
    Measured<Normality> found = last == null ? null : last.normality();
    List<String> cautions = LotCautions.of(lot.declared(), dated, at, last, validity);
    return strength(lot.declared(), found, false, cautions);
  }

  @Override
  public LotStrength interpolated(String lot, Instant sampledAt) {
    TitrantLot known = held(lot);
    DatedStrength before = before(known.stream(), sampledAt).orElse(null);
    DatedStrength after =
        results
            .firstCounting(known.stream(), sampledAt)
            .map(LotStrengths::strengthFoundBy)
            .orElse(null);
    if (before == null || after == null) {
      DatedStrength nearest = before == null ? after : before;
      Measured<Normality> found = nearest == null ? null : nearest.normality();
      return strength(known.declared(), found, true, cautions(known, sampledAt, nearest));
    }
    DatedStrength nearest =
        Duration.between(before.performedAt(), sampledAt)
                    .compareTo(Duration.between(sampledAt, after.performedAt()))
                <= 0
            ? before
            : after;
    return strength(
        known.declared(),
        before.between(after, sampledAt),
        true,
        cautions(known, sampledAt, nearest));
  }

  private List<String> cautions(
      TitrantLot lot, Instant sampledAt, @Nullable DatedStrength nearest) {
    return LotCautions.of(lot.declared(), LotCautions.SAMPLE, sampledAt, nearest, validity);
  }

  private TitrantLot held(String lot) {
    lots.hold(lot);
    return lots.lot(lot)
        .orElseThrow(
            () ->
                Refusal.impossible(
                    "#/titrant/lot", "There is no titrant lot %s on record.".formatted(lot)));
  }

  private Optional<DatedStrength> before(UUID stream, Instant sampledAt) {
    return results.lastCounting(stream, sampledAt).map(LotStrengths::strengthFoundBy);
  }

  private static LotStrength strength(
      LotDeclaration lot,
      @Nullable Measured<Normality> found,
      boolean isInterpolated,
      List<String> cautions) {
    Measured<Normality> taken = found == null ? nominal(lot) : found;
    return new LotStrength(lot.slug(), lot.reagent(), taken, isInterpolated, cautions);
  }

  /** What is known of a lot by its label: anything within the tolerance, a rectangle. */
  private static Measured<Normality> nominal(LotDeclaration lot) {
    double normality = lot.nominalNormality();
    return Measured.of(
        new Normality(normality), LotDeclaration.TOLERANCE * normality / Math.sqrt(3));
  }

  /** The strength that a standardisation on record found. */
  static DatedStrength strengthFoundBy(RecordedResult standardisation) {
    Figure found = standardisation.latest().assessment().result();
    Double uncertainty = found.standardUncertainty();
    Double degreesOfFreedom = found.effectiveDegreesOfFreedom();
    return new DatedStrength(
        standardisation.sampledAt(),
        new Measured<>(
            new Normality(found.value()),
            uncertainty == null ? 0 : uncertainty,
            degreesOfFreedom == null ? Double.POSITIVE_INFINITY : degreesOfFreedom));
  }
}
