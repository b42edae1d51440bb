package org.sapotrace.titrant;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.LotStrength;
import org.sapotrace.bench.Results;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.StrengthHistory;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;

/**
 * A lot with what it was found to be.
 *
 * @param history of the standardisations that count
 */
record KnownLot(TitrantLot lot, StrengthHistory history) {

  static KnownLot of(TitrantLot lot, Results results) {
    return new KnownLot(
        lot,
        new StrengthHistory(results.found(lot.stream()).stream().map(KnownLot::strength).toList()));
  }

  private static DatedStrength strength(Results.Found found) {
    Double uncertainty = found.standardUncertainty();
    Double degreesOfFreedom = found.effectiveDegreesOfFreedom();
    return new DatedStrength(
        found.sampledAt(),
        new Measured<>(
            new Normality(found.value()),
            uncertainty == null ? 0 : uncertainty,
            degreesOfFreedom == null ? Double.POSITIVE_INFINITY : degreesOfFreedom));
  }

  LotDeclaration declared() {
    return lot.declared();
  }

  /**
   * The strength to count with.
   *
   * @param found null where there is none, so that the nominal one counts
   */
  LotStrength strength(
      @Nullable Measured<Normality> found, boolean isInterpolated, List<String> cautions) {
    LotDeclaration declared = declared();
    return new LotStrength(
        declared.slug(),
        declared.reagent(),
        found == null ? nominal(declared.nominalNormality()) : found,
        isInterpolated,
        cautions);
  }

  /** What is known of a lot by its label: anything within the tolerance, a rectangle. */
  private static Measured<Normality> nominal(double molesPerLitre) {
    return Measured.of(
        new Normality(molesPerLitre), LotDeclaration.TOLERANCE * molesPerLitre / Math.sqrt(3));
  }
}
