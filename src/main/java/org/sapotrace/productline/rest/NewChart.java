package org.sapotrace.productline.rest;

import com.fasterxml.jackson.annotation.JsonFormat;
import com.fasterxml.jackson.databind.JsonNode;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.refusal.Refusal;

/** Chart settings as a client puts them; what is left out has its default. */
record NewChart(
    @Nullable Integer subgroupSize,
    @Nullable Dispersion dispersion,
    @Nullable String scale,
    @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY) @Size(max = 20)
        @Nullable List<@NotNull String> rules,
    @Nullable JsonNode ewma,
    @Nullable JsonNode cusum) {

  ChartSettings toSettings() {
    refuseWhatIsNotBuilt();
    Dispersion given = dispersion == null ? ChartSettings.DEFAULT.dispersion() : dispersion;
    Dispersion chosen = Refusal.at("#/chart/dispersion", given::ofSingleResults);
    return new ChartSettings(
        chosen, rules == null ? ChartSettings.DEFAULT.rules() : chosenRules(rules));
  }

  private void refuseWhatIsNotBuilt() {
    if (subgroupSize != null && subgroupSize < 1) {
      throw Refusal.impossible("#/chart/subgroupSize", "A subgroup has at least one result.");
    }
    if (subgroupSize != null && subgroupSize > 1) {
      throw Refusal.notYet(
          "#/chart/subgroupSize", "Only single results are charted yet; use a subgroupSize of 1.");
    }
    if (scale != null && !scale.equals("linear")) {
      if (!scale.equals("log") && !scale.equals("box-cox")) {
        throw Refusal.impossible("#/chart/scale", "Use linear, log or box-cox.");
      }
      throw Refusal.notYet(
          "#/chart/scale", "Only the linear scale is charted yet; leave scale out.");
    }
    if (isGiven(ewma)) {
      throw Refusal.notYet("#/chart/ewma", "The EWMA is not charted yet; leave ewma out.");
    }
    if (isGiven(cusum)) {
      throw Refusal.notYet("#/chart/cusum", "The CUSUM is not charted yet; leave cusum out.");
    }
  }

  private static boolean isGiven(@Nullable JsonNode setting) {
    return setting != null && !setting.isNull();
  }

  /** Rules by their own names and by the names of sets. */
  private static Set<RunRule> chosenRules(List<String> names) {
    Set<RunRule> chosen = EnumSet.noneOf(RunRule.class);
    for (int i = 0; i < names.size(); i++) {
      String name = names.get(i);
      chosen.addAll(Refusal.at("#/chart/rules/" + i, () -> RunRule.allNamed(name)));
    }
    return chosen;
  }
}
