package org.sapotrace.chemistry;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.StandardPortion.Aliquot;
import org.sapotrace.chemistry.StandardPortion.Weighed;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;

/**
 * The normality of a titrant, found against a primary standard.
 *
 * <p>c = 1000 m P / (E (V - V0)) in mol/L, with the mass m of standard in g, its purity P, its
 * equivalent mass E in g/mol, the titrant V and the blank V0 in mL; by aliquots of a solution, m is
 * the mass in the solution times aliquot over solution. It is the normality at 20 °C.
 * EURACHEM/CITAC QUAM:2012, example A2.
 *
 * @param reagent what the titrant is made of
 * @param standard what it was titrated against
 * @param purity P
 * @param replicates one or more titrations
 * @param blank V0; null where none was titrated, which counts as 0 mL
 * @param glassware what standard and blank were titrated from
 * @param balance that the standard was weighed on
 */
public record Standardisation(
    Reagent reagent,
    PrimaryStandard standard,
    Purity purity,
    List<Run> replicates,
    @Nullable Volume blank,
    Glassware glassware,
    Balance balance) {

  /**
   * One titration of the standard.
   *
   * @param portion the standard titrated
   * @param titrant V, the titrant used up to the end point
   */
  public record Run(StandardPortion portion, Volume titrant) {}

  /**
   * Refuses with {@link IllegalArgumentException} a standardisation without titrations, on a
   * standard that does not react with the reagent, from a piece that delivers no titrant, with no
   * more titrant than the blank, or of so little that it is less than 10 times its own uncertainty.
   */
  public Standardisation {
    replicates = List.copyOf(replicates);
    standard.checkSuits(reagent);
    NetTitrant net = new NetTitrant(glassware, Blank.of(blank), reagent.solvent());
    if (replicates.isEmpty()) {
      throw new IllegalArgumentException("Give at least one titration of the standard.");
    }
    double blankMl = blank == null ? 0 : blank.millilitres();
    if (!replicates.stream().allMatch(each -> each.titrant().millilitres() > blankMl)) {
      throw new IllegalArgumentException(
          "The standard took no more titrant than the blank: check both readings.");
    }
    for (Run each : replicates) {
      checkIsKnown(each.portion(), balance);
      Certainty.check(
          "titrant beyond the blank",
          net.net(each.titrant(), new Errors()),
          net.standardUncertaintyMl(),
          "mL",
          "titrate more of the standard, or from finer glassware");
    }
  }

  private static void checkIsKnown(StandardPortion portion, Balance balance) {
    double weighing = balance.standardUncertaintyG();
    if (portion instanceof Weighed whole) {
      Certainty.check(
          "mass of the standard",
          whole.standard().grams(),
          weighing,
          "g",
          "weigh out more, or titrate an aliquot of a solution");
    } else if (portion instanceof Aliquot part) {
      Certainty.check(
          "mass in the solution", part.standard().grams(), weighing, "g", "dissolve more");
      Certainty.check(
          "solution",
          part.solution().millilitres(),
          part.flask().calibrationMl(),
          "mL",
          "make up a larger one");
      Certainty.check(
          "aliquot",
          part.aliquot().millilitres(),
          part.pipette().calibrationMl(),
          "mL",
          "take a larger one");
    }
  }

  /** The mean over the replicates, in mol/L. */
  public Calculation calculation() {
    NetTitrant net = new NetTitrant(glassware, Blank.of(blank), reagent.solvent());
    ErrorModel<Run> model =
        new ErrorModel<>(
            replicates,
            (run, errors) ->
                1000
                    * mass(run.portion(), errors)
                    * purity(errors)
                    / (standard.equivalentMass()
                        * net.net(run.titrant(), errors)
                        * net.expansion(errors)));
    model.with(ErrorSource.STANDARD_PURITY);
    if (replicates.stream().anyMatch(each -> each.portion() instanceof Weighed)) {
      model.with(ErrorSource.STANDARD_MASS);
    }
    if (replicates.stream().anyMatch(each -> each.portion() instanceof Aliquot)) {
      model.with(ErrorSource.SOLUTION_MASS, ErrorSource.FLASK, ErrorSource.PIPETTE);
    }
    return net.addTo(model);
  }

  /**
   * The normality as titrations use it, with the effective degrees of freedom of its budget.
   *
   * @throws IllegalArgumentException for a figure that no titrant can have
   */
  public Measured<Normality> normality() {
    Determination found = calculation().determine();
    return new Measured<>(
        new Normality(found.value()),
        found.budget().standardUncertainty(),
        found.budget().effectiveDegreesOfFreedom());
  }

  private double purity(Errors errors) {
    return purity.massFraction()
        + errors.of(ErrorSource.STANDARD_PURITY) * purity.standardUncertainty();
  }

  private double mass(StandardPortion portion, Errors errors) {
    double weighing = balance.standardUncertaintyG();
    if (portion instanceof Aliquot part) {
      double dissolved = part.standard().grams() + errors.of(ErrorSource.SOLUTION_MASS) * weighing;
      return dissolved
          * with(part.aliquot(), part.pipette(), errors.of(ErrorSource.PIPETTE))
          / with(part.solution(), part.flask(), errors.of(ErrorSource.FLASK));
    }
    Weighed whole = (Weighed) portion;
    return whole.standard().grams() + errors.of(ErrorSource.STANDARD_MASS) * weighing;
  }

  private static double with(Volume volume, Glassware piece, double error) {
    return volume.millilitres() + error * piece.calibrationMl();
  }
}
