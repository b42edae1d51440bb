package org.sapotrace.chemistry;

import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;

/** The primary standard that one titration consumes. */
public sealed interface StandardPortion {

  /** Weighed straight into the titration flask. */
  record Weighed(Mass standard) implements StandardPortion {}

  /**
   * Part of a solution, as what 0.01 mol/L titrants take is too little to weigh.
   *
   * @param standard weighed into the solution
   * @param solution its volume, in a volumetric flask
   * @param aliquot what was taken of it, more than 0 and at most all
   */
  record Aliquot(Mass standard, Volume solution, Volume aliquot) implements StandardPortion {

    /** Refuses more than there is, or nothing, with {@link IllegalArgumentException}. */
    public Aliquot {
      if (!(aliquot.millilitres() > 0 && aliquot.millilitres() <= solution.millilitres())) {
        throw new IllegalArgumentException(
            "The aliquot is %s mL; it must be more than 0 mL and at most the solution's %s mL."
                .formatted(
                    Rounding.of(aliquot.millilitres()), Rounding.of(solution.millilitres())));
      }
    }

    /** The flask that is taken for the solution: the smallest one that holds it. */
    Glassware flask() {
      return Glassware.smallest(Glassware.Kind.VOLUMETRIC_FLASK, solution, "make up a smaller one");
    }

    /** The pipette that is taken for the aliquot: the smallest one that holds it. */
    Glassware pipette() {
      return Glassware.smallest(Glassware.Kind.PIPETTE, aliquot, "take a smaller aliquot");
    }
  }
}
