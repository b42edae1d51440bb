package org.sapotrace.bench.rest;

import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Alkali;
import org.sapotrace.chemistry.Glassware;
import org.sapotrace.chemistry.TestPlan;
import org.sapotrace.http.SafeText;
import org.sapotrace.refusal.Refusal;

/** What is to be found by titrating soap, and how well. */
record TestPlanCalculation(
    @NotNull Alkali alkali,
    @NotNull @DecimalMin("0") @DecimalMax("1e6") Double levelMgPerKg,
    @NotNull @DecimalMin(value = "0", inclusive = false) @DecimalMax("1e6")
        Double expandedUncertaintyMgPerKg,
    @SafeText(max = 63) @Nullable String glassware) {

  /** A plan with the glassware that was asked for. */
  record Answer(
      double sampleG,
      double normality,
      int replicates,
      double expandedUncertainty,
      String reason,
      List<Alternative> alternatives) {}

  /** A plan with another piece of glassware. */
  record Alternative(
      String glassware,
      double sampleG,
      double normality,
      int replicates,
      double expandedUncertainty,
      String reason) {

    static Alternative of(TestPlan plan) {
      return new Alternative(
          plan.glassware().slug(),
          plan.sampleG(),
          plan.normality().molesPerLitre(),
          plan.replicates(),
          plan.expandedUncertainty(),
          plan.reason());
    }
  }

  Answer answer() {
    Glassware piece =
        glassware == null
            ? Glassware.assumed()
            : Refusal.at("#/glassware", () -> Glassware.named(glassware));
    TestPlan plan =
        Refusal.at(
            "#/glassware",
            () -> TestPlan.of(alkali, levelMgPerKg, expandedUncertaintyMgPerKg, piece));
    String taken =
        glassware == null ? " No glassware was named: a 25 mL class A burette was taken." : "";
    return new Answer(
        plan.sampleG(),
        plan.normality().molesPerLitre(),
        plan.replicates(),
        plan.expandedUncertainty(),
        plan.reason() + taken,
        TestPlan.alternatives(alkali, levelMgPerKg, expandedUncertaintyMgPerKg, piece).stream()
            .map(Alternative::of)
            .toList());
  }
}
