package org.sapotrace.titrant;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.DatedStrength;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/** Says what is odd about a standardisation of a lot, and refuses what cannot be true. */
final class StandardisationCheck {

  // A slip of the decimal point, of the aliquot, or molarity taken for normality; no titrant moves
  // so far by itself.
  private static final double IMPOSSIBLE_RATIO = 2;

  // Common practice: a move of 1 % asks for a look.
  private static final double MOVE = 0.01;

  private StandardisationCheck() {}

  /**
   * What is odd.
   *
   * @param normality what was found, in mol/L
   * @param last the standardisation before it in time; null where there is none
   * @throws Refusal for a normality that the lot cannot have
   */
  static List<String> cautions(
      LotDeclaration lot, Instant performedAt, double normality, @Nullable DatedStrength last) {
    double ratio = normality / lot.nominalNormality();
    if (!(ratio < IMPOSSIBLE_RATIO && ratio > 1 / IMPOSSIBLE_RATIO)) {
      throw impossible(lot, normality);
    }
    List<String> cautions = LotCautions.ofDates(lot, LotCautions.STANDARDISATION, performedAt);
    if (!lot.tolerance().allows(normality)) {
      cautions.add(
          "A normality of %s mol/L is %s %% off the nominal %s mol/L, where 5 %% is the most for use: check the standardisation, or prepare a new lot."
              .formatted(
                  Rounding.of(normality),
                  Rounding.of(100 * Math.abs(ratio - 1)),
                  Rounding.of(lot.nominalNormality())));
    }
    if (last != null) {
      double before = last.normality().quantity().molesPerLitre();
      double move = normality / before - 1;
      if (Math.abs(move) >= MOVE) {
        cautions.add(
            "The normality has %s by %s %% since the standardisation of %s: a move of 1 %% or more asks for a look (common practice)."
                .formatted(
                    move > 0 ? "risen" : "fallen",
                    Rounding.of(100 * Math.abs(move)),
                    LotCautions.day(last.performedAt())));
      }
    }
    return cautions;
  }

  private static Refusal impossible(LotDeclaration lot, double normality) {
    String diprotic =
        lot.reagent() == Reagent.SULFURIC_ACID
            ? " Sulfuric acid gives two H+: its nominal normality is twice its molarity."
            : "";
    return Refusal.impossible(
        "#/replicates",
        "The titrations come to %s mol/L, and lot %s is meant to be %s mol/L: check the mass of standard, solution and aliquot, the volume of titrant, and the nominal normality of the lot.%s"
            .formatted(
                Rounding.of(normality), lot.slug(), Rounding.of(lot.nominalNormality()), diprotic));
  }
}
