package org.sapotrace.bench;

import java.util.List;
import java.util.Objects;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.Replicate;
import org.sapotrace.chemistry.SampleDensity;
import org.sapotrace.chemistry.TestPortion;
import org.sapotrace.chemistry.UsualTitration;
import org.sapotrace.measure.Temperature;
import org.sapotrace.measure.Volume;
import org.sapotrace.refusal.Refusal;

/** Reads replicates as they were typed, and points at the reading that cannot be true. */
final class TypedReplicates {

  private TypedReplicates() {}

  /**
   * The replicates as typed.
   *
   * @param named the glassware whose capacity bounds a reading; null where none was named
   * @param density of the sample, by which a volume of it is bounded
   */
  static List<Replicate> read(Readings readings, @Nullable Glassware named, SampleDensity density) {
    return IntStream.range(0, readings.replicates().size())
        .mapToObj(i -> replicate("#/replicates/" + i, readings.replicates().get(i), named, density))
        .toList();
  }

  private static Replicate replicate(
      String pointer, Readings.Replicate typed, @Nullable Glassware named, SampleDensity density) {
    Volume titrant = titrantVolume(pointer, typed, named);
    TestPortion portion = portion(pointer, typed);
    Refusal.at(
        pointer + (typed.sampleG() == null ? "/sampleMl" : "/sampleG"),
        () -> UsualTitration.portion(portion.mass(density).grams()));
    Double freeAlkaliMl = typed.freeAlkaliMl();
    if (freeAlkaliMl == null) {
      return new Replicate(titrant, portion);
    }
    String first = pointer + "/freeAlkaliMl";
    Volume freeAlkali = reading(first, freeAlkaliMl, named);
    return Refusal.at(first, () -> new Replicate(titrant, portion, freeAlkali));
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

  /**
   * A volume that was read.
   *
   * @param named the glassware whose capacity bounds it; null where none was named
   */
  static Volume reading(String pointer, double ml, @Nullable Glassware named) {
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
      return new TestPortion.Weighed(
          Refusal.at(pointer + "/sampleG", () -> UsualTitration.portion(sampleG)));
    }
    if (sampleC == null) {
      throw Refusal.impossible(
          pointer + "/sampleC",
          "A sample given by volume needs its temperature in °C: 1 °C changes its mass by 0.08 %.");
    }
    double millilitres = Objects.requireNonNull(sampleMl);
    Temperature temperature = Refusal.at(pointer + "/sampleC", () -> new Temperature(sampleC));
    return Refusal.at(
        pointer + "/sampleMl",
        () -> new TestPortion.MeasuredOut(new Volume(millilitres), temperature));
  }
}
