package org.sapotrace.bench.rest;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.bench.Readings;
import org.sapotrace.refusal.Refusal;

/** The readings of a titration as a client sends them. */
final class SoapReadings {

  /** More replicates than this are a slip of the client, not a careful analyst. */
  static final int MOST_REPLICATES = 100;

  private SoapReadings() {}

  /** What was titrated with: a lot on record, or a solution of known normality. */
  record NewTitrant(
      @Nullable String lot, @Nullable Double normality, @Nullable Double standardUncertainty) {

    Readings.Titrant toTitrant() {
      if (lot != null) {
        throw Refusal.notYet(
            "#/titrant/lot", "Titrant lots are not kept yet; give the normality in mol/L.");
      }
      if (normality == null) {
        throw Refusal.impossible(
            "#/titrant/normality", "Give the normality of the titrant in mol/L.");
      }
      return new Readings.Titrant(normality, standardUncertainty);
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

    Readings.Replicate toReplicate(int index) {
      if (freeAlkaliMl != null) {
        throw Refusal.notYet(
            "#/replicates/%d/freeAlkaliMl".formatted(index),
            "Titrations with two end points are not computed yet; leave freeAlkaliMl out.");
      }
      return new Readings.Replicate(titrantMl, initialMl, finalMl, sampleG, sampleMl, sampleC);
    }
  }

  static Readings of(
      NewTitrant titrant,
      @Nullable Double blankMl,
      @Nullable String glassware,
      @Nullable JsonNode balance,
      List<NewReplicate> replicates) {
    if (balance != null && !balance.isNull()) {
      throw Refusal.notYet(
          "#/balance", "Balances cannot be named yet; one that reads to 0.01 g is taken.");
    }
    List<Readings.Replicate> typed = new ArrayList<>();
    for (NewReplicate replicate : replicates) {
      typed.add(replicate.toReplicate(typed.size()));
    }
    return new Readings(titrant.toTitrant(), blankMl, glassware, typed);
  }
}
