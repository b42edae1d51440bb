package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Balance;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.SoapTitration;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.Volume;
import org.sapotrace.refusal.Refusal;

/** Turns the readings of a soap titration into a figure and a verdict, naming every default. */
final class SoapAssessor {

  private SoapAssessor() {}

  /**
   * Assesses readings.
   *
   * @throws Refusal pointing at the reading that cannot be true
   */
  static Assessment assess(Readings readings, SoapBasis basis) {
    Glassware glassware = glassware(readings);
    SoapTitration titration =
        new SoapTitration(
            TypedReplicates.read(readings, readings.glassware() == null ? null : glassware),
            blank(readings, readings.glassware() == null ? null : glassware),
            titrant(readings.titrant()),
            basis.expressedAs(),
            glassware,
            basis.density(),
            Balance.assumed());
    Reported reported =
        Reported.of(Refusal.at("#/replicates", titration::determine), Figure.MG_PER_KG);
    return new Assessment(
        Figure.of(reported, basis.alkali()),
        reported.determination().isBelowDetection(),
        reported.judge(basis.requirement()),
        cautions(readings, basis, reported));
  }

  private static Glassware glassware(Readings readings) {
    String slug = readings.glassware();
    if (slug == null) {
      return Glassware.assumed();
    }
    Glassware named = Refusal.at("#/glassware", () -> Glassware.named(slug));
    if (!named.kind().deliversTitrant()) {
      throw Refusal.impossible(
          "#/glassware", "A %s delivers no titrant.".formatted(named.kind().label()));
    }
    return named;
  }

  private static @Nullable Volume blank(Readings readings, @Nullable Glassware named) {
    Double blankMl = readings.blankMl();
    return blankMl == null ? null : TypedReplicates.reading("#/blankMl", blankMl, named);
  }

  private static Measured<Normality> titrant(Readings.Titrant titrant) {
    Normality normality =
        Refusal.at("#/titrant/normality", () -> new Normality(titrant.normality()));
    Double uncertainty = titrant.standardUncertainty();
    if (uncertainty == null) {
      return Measured.exactly(normality);
    }
    Measured<Normality> measured =
        Refusal.at("#/titrant/standardUncertainty", () -> Measured.of(normality, uncertainty));
    if (uncertainty > normality.molesPerLitre()) {
      throw Refusal.impossible(
          "#/titrant/standardUncertainty",
          "A standard uncertainty of %s mol/L is more than the normality itself, %s mol/L: check both and their unit."
              .formatted(Rounding.of(uncertainty), Rounding.of(normality.molesPerLitre())));
    }
    return measured;
  }

  private static List<String> cautions(Readings readings, SoapBasis basis, Reported reported) {
    List<String> cautions = new ArrayList<>();
    reported.caution().ifPresent(cautions::add);
    if (reported.determination().isBelowDetection()) {
      cautions.add(
          "Below detection: the sample took no more titrant than the blank. The signed value is kept.");
    }
    if (readings.blankMl() == null) {
      cautions.add("No blank was given: 0 mL was taken.");
    }
    if (readings.titrant().standardUncertainty() == null) {
      cautions.add("No uncertainty of the titrant's normality was given: it was taken as exact.");
    }
    if (readings.glassware() == null) {
      cautions.add("No glassware was named: a 25 mL class A burette was taken for the budget.");
    }
    if (readings.replicates().stream().anyMatch(r -> r.sampleG() != null)) {
      cautions.add("No balance was named: one that reads to 0.01 g was taken.");
    }
    if (readings.replicates().stream().anyMatch(r -> r.sampleMl() != null)) {
      if (basis.densityCaution() != null) {
        cautions.add(basis.densityCaution());
      }
      cautions.add(
          "For a sample given by volume the smallest class B measuring cylinder that holds it was taken.");
    }
    return cautions;
  }
}
