package org.sapotrace.bench.rest;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;
import org.sapotrace.bench.Throughput;
import org.sapotrace.bench.Titration;
import org.sapotrace.http.Slug;
import org.sapotrace.refusal.Refusal;

/** The readings of a titration as a client sends them. */
final class TypedReadings {

  /** More replicates than this are a slip of the client, not a careful analyst. */
  static final int MOST_REPLICATES = 100;

  private TypedReadings() {}

  /** What was titrated with: a lot on record, or a solution of known normality. */
  record NewTitrant(
      @Slug @Nullable String lot,
      @Nullable Double normality,
      @Nullable Double standardUncertainty) {

    Readings.Titrant toTitrant() {
      if (lot != null && (normality != null || standardUncertainty != null)) {
        throw Refusal.impossible(
            "#/titrant", "The record says what a lot is worth: give lot, or normality, not both.");
      }
      if (lot == null && normality == null) {
        throw Refusal.impossible(
            "#/titrant/normality",
            "Give the normality of the titrant in mol/L, or the lot that is on record.");
      }
      return new Readings.Titrant(lot, normality, standardUncertainty);
    }
  }

  /** One titration. */
  record NewReplicate(
      @Nullable Double titrantMl,
      @Nullable Double initialMl,
      @Nullable Double finalMl,
      @Nullable Double freeAlkaliMl,
      @Nullable Double sampleG,
      @Nullable Double sampleMl,
      @Nullable Double sampleC) {

    Readings.Replicate toReplicate() {
      return new Readings.Replicate(
          titrantMl, initialMl, finalMl, freeAlkaliMl, sampleG, sampleMl, sampleC);
    }
  }

  /** What had gone through a tower or a flush. */
  record NewThroughput(@Nullable Double litres, @Nullable Double bedVolumes) {

    /**
     * What had gone through, as far as anybody said.
     *
     * @param inletMgPerKg the soap before, which is checked beside it
     * @throws Refusal with all that cannot be of the three
     */
    static @Nullable Throughput checked(
        @Nullable NewThroughput typed, @Nullable Double inletMgPerKg) {
      Double litres = typed == null ? null : typed.litres;
      Double bedVolumes = typed == null ? null : typed.bedVolumes;
      Refusal.together(
          () -> Refusal.at("#/throughput/litres", () -> Throughput.checkedLitres(litres)),
          () ->
              Refusal.at("#/throughput/bedVolumes", () -> Throughput.checkedBedVolumes(bedVolumes)),
          () -> Refusal.at("#/inletMgPerKg", () -> Titration.checkedInlet(inletMgPerKg)));
      return typed == null
          ? null
          : Refusal.at("#/throughput", () -> new Throughput(litres, bedVolumes));
    }
  }

  static Readings of(
      NewTitrant titrant,
      @Nullable Double blankMl,
      @Nullable String glassware,
      @Nullable String balance,
      List<NewReplicate> replicates) {
    return new Readings(
        titrant.toTitrant(),
        blankMl,
        glassware,
        balance,
        replicates.stream().map(NewReplicate::toReplicate).toList());
  }
}
