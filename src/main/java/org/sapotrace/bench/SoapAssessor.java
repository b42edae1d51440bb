package org.sapotrace.bench;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Balance;
import org.sapotrace.chemistry.Determination;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.Replicate;
import org.sapotrace.chemistry.Requirement;
import org.sapotrace.chemistry.SoapTitration;
import org.sapotrace.chemistry.TestPortion;
import org.sapotrace.measure.Mass;
import org.sapotrace.measure.Measured;
import org.sapotrace.measure.Normality;
import org.sapotrace.measure.Temperature;
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
            replicates(readings, readings.glassware() == null ? null : glassware),
            blank(readings),
            titrant(readings.titrant()),
            basis.expressedAs(),
            glassware,
            basis.density(),
            Balance.assumed());
    Determination determination = Refusal.at("#/replicates", titration::determine);
    Requirement requirement = basis.requirement();
    return new Assessment(
        Figure.of(determination, basis.alkali()),
        determination.isBelowDetection(),
        requirement == null ? null : requirement.judge(determination),
        cautions(readings, basis, determination));
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

  private static @Nullable Volume blank(Readings readings) {
    Double blankMl = readings.blankMl();
    return blankMl == null ? null : Refusal.at("#/blankMl", () -> new Volume(blankMl));
  }

  private static Measured<Normality> titrant(Readings.Titrant titrant) {
    Normality normality =
        Refusal.at("#/titrant/normality", () -> new Normality(titrant.normality()));
    Double uncertainty = titrant.standardUncertainty();
    return uncertainty == null
        ? Measured.exactly(normality)
        : Refusal.at("#/titrant/standardUncertainty", () -> Measured.of(normality, uncertainty));
  }

  /**
   * The replicates as typed.
   *
   * @param named the glassware whose capacity bounds a reading; null where none was named
   */
  private static List<Replicate> replicates(Readings readings, @Nullable Glassware named) {
    return IntStream.range(0, readings.replicates().size())
        .mapToObj(i -> replicate("#/replicates/" + i, readings.replicates().get(i), named))
        .toList();
  }

  private static Replicate replicate(
      String pointer, Readings.Replicate typed, @Nullable Glassware named) {
    Volume titrant = titrantVolume(pointer, typed, named);
    return new Replicate(titrant, portion(pointer, typed));
  }

  private static Volume titrantVolume(
      String pointer, Readings.Replicate typed, @Nullable Glassware named) {
    Double titrantMl = typed.titrantMl();
    Double initialMl = typed.initialMl();
    Double finalMl = typed.finalMl();
    if (titrantMl != null && initialMl == null && finalMl == null) {
      return reading(pointer + "/titrantMl", titrantMl, named);
    }
    if (titrantMl == null && initialMl != null && finalMl != null) {
      Volume start = reading(pointer + "/initialMl", initialMl, named);
      Volume end = reading(pointer + "/finalMl", finalMl, named);
      if (end.millilitres() < start.millilitres()) {
        throw Refusal.impossible(
            pointer + "/finalMl", "The final reading is below the initial one: check both.");
      }
      return new Volume(end.millilitres() - start.millilitres());
    }
    throw Refusal.impossible(
        pointer, "Give titrantMl, or initialMl and finalMl in its place, and not both.");
  }

  private static Volume reading(String pointer, double ml, @Nullable Glassware named) {
    return Refusal.at(
        pointer,
        () -> {
          Volume volume = new Volume(ml);
          if (named != null) {
            named.checkHolds(volume);
          }
          return volume;
        });
  }

  private static TestPortion portion(String pointer, Readings.Replicate typed) {
    Double sampleG = typed.sampleG();
    Double sampleMl = typed.sampleMl();
    Double sampleC = typed.sampleC();
    if ((sampleG == null) == (sampleMl == null)) {
      throw Refusal.impossible(
          pointer, "Give the test portion either as sampleG or as sampleMl with sampleC.");
    }
    if (sampleG != null) {
      if (sampleC != null) {
        throw Refusal.impossible(
            pointer + "/sampleC", "A temperature goes with sampleMl; a mass needs none.");
      }
      return new TestPortion.Weighed(Refusal.at(pointer + "/sampleG", () -> new Mass(sampleG)));
    }
    if (sampleC == null) {
      throw Refusal.impossible(
          pointer + "/sampleC",
          "A sample given by volume needs its temperature in °C: 1 °C changes its mass by 0.08 %.");
    }
    double millilitres = java.util.Objects.requireNonNull(sampleMl);
    Temperature temperature = Refusal.at(pointer + "/sampleC", () -> new Temperature(sampleC));
    return Refusal.at(
        pointer + "/sampleMl",
        () -> new TestPortion.MeasuredOut(new Volume(millilitres), temperature));
  }

  private static List<String> cautions(
      Readings readings, SoapBasis basis, Determination determination) {
    List<String> cautions = new ArrayList<>();
    if (determination.isBelowDetection()) {
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
