package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Balance;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.PrimaryStandard;
import org.sapotrace.chemistry.Purity;
import org.sapotrace.chemistry.Reagent;
import org.sapotrace.chemistry.StandardPortion;
import org.sapotrace.chemistry.Standardisation;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Volume;
import org.sapotrace.refusal.Refusal;

/** Turns the readings of a standardisation into a normality, naming every default. */
final class StandardisationAssessor {

  private StandardisationAssessor() {}

  /**
   * Assesses readings.
   *
   * @param known what the titrant is made of; null where nobody said
   * @param propagation null for variances
   * @throws Refusal pointing at the reading that cannot be true
   */
  static Assessment assess(
      StandardReadings readings, @Nullable Reagent known, @Nullable Propagation propagation) {
    Reagent reagent = known == null ? reagentFor(readings.standard()) : known;
    Glassware glassware = TitrationAssessor.glassware(readings.glassware());
    Glassware named = readings.glassware() == null ? null : glassware;
    Double purity = readings.purity();
    Purity assumed = Purity.of(1);
    Purity taken = purity == null ? assumed : Refusal.at("#/purity", () -> Purity.of(purity));
    List<Standardisation.Run> runs = runs(readings.replicates(), named);
    Volume blank = TitrationAssessor.blank(readings.blankMl(), named);
    Balance balance = TitrationAssessor.balance(readings.balance(), Balance.assumedForStandards());
    Standardisation standardisation =
        Refusal.at(
            "#/replicates",
            () ->
                new Standardisation(
                    reagent, readings.standard(), taken, runs, blank, glassware, balance));
    Reported reported = Reported.of(standardisation.calculation(), propagation, "mol/L");
    // What no titrant can have is refused here.
    Refusal.at("#/replicates", () -> new Normality(reported.determination().value()));
    return new Assessment(
        Figure.of(reported, null), false, null, null, cautions(readings, reagent, reported));
  }

  /**
   * Which of the reagents that react with a standard it is does not change the normality. Of the
   * alkalis the one is taken that expands more.
   */
  private static Reagent reagentFor(PrimaryStandard standard) {
    return switch (standard) {
      case SODIUM_CARBONATE, TRIS -> Reagent.HYDROCHLORIC_ACID;
      case POTASSIUM_HYDROGEN_PHTHALATE -> Reagent.POTASSIUM_HYDROXIDE;
    };
  }

  private static List<Standardisation.Run> runs(
      List<StandardReadings.Run> typed, @Nullable Glassware named) {
    return IntStream.range(0, typed.size())
        .mapToObj(
            i -> {
              String pointer = "#/replicates/" + i;
              StandardReadings.Run run = typed.get(i);
              StandardPortion portion = portion(pointer, run);
              return new Standardisation.Run(
                  portion, TypedReplicates.reading(pointer + "/titrantMl", run.titrantMl(), named));
            })
        .toList();
  }

  private static StandardPortion portion(String pointer, StandardReadings.Run typed) {
    Double standardG = typed.standardG();
    StandardReadings.Solution solution = typed.solution();
    Double aliquotMl = typed.aliquotMl();
    if (standardG != null && solution == null && aliquotMl == null) {
      return new StandardPortion.Weighed(mass(pointer + "/standardG", standardG));
    }
    if (standardG == null && solution != null && aliquotMl != null) {
      Mass dissolved = mass(pointer + "/solution/standardG", solution.standardG());
      Volume whole =
          TypedReplicates.reading(pointer + "/solution/volumeMl", solution.volumeMl(), null);
      Volume part = TypedReplicates.reading(pointer + "/aliquotMl", aliquotMl, null);
      return Refusal.at(
          pointer + "/aliquotMl", () -> new StandardPortion.Aliquot(dissolved, whole, part));
    }
    throw Refusal.impossible(
        pointer, "Give the standard either as standardG, or as solution with aliquotMl.");
  }

  private static Mass mass(String pointer, double grams) {
    return Refusal.at(pointer, () -> new Mass(grams));
  }

  private static List<String> cautions(
      StandardReadings readings, Reagent reagent, Reported reported) {
    List<String> cautions = new ArrayList<>(reported.cautions());
    cautions.add(
        readings.purity() == null
            ? "No purity of the standard was given: 1 was taken, as exact."
            : "No uncertainty of the purity is known: it was taken as exact.");
    if (readings.blankMl() == null) {
      cautions.add(TitrationAssessor.NO_BLANK);
    }
    if (readings.glassware() == null) {
      cautions.add(TitrationAssessor.NO_GLASSWARE);
    }
    cautions.add(TitrationAssessor.temperature(reagent.solvent()));
    if (readings.balance() == null) {
      cautions.add("No balance was named: one that reads to 0.1 mg was taken.");
    }
    if (readings.replicates().stream().anyMatch(each -> each.solution() != null)) {
      cautions.add(
          "For a solution the smallest class A flask and pipette that hold it and its aliquot were taken.");
    }
    return cautions;
  }
}
