package org.sapotrace.productline.rest;

import com.fasterxml.jackson.annotation.JsonFormat;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.http.Switchable;
import org.sapotrace.productline.ChartSettings;
import org.sapotrace.refusal.Refusal;

/** Chart settings as a client puts them; what is left out has its default. */
record NewChart(
    @Nullable Integer subgroupSize,
    @Nullable Dispersion dispersion,
    @Nullable Scale scale,
    @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY) @Size(max = 20)
        @Nullable List<@NotNull String> rules,
    @Nullable Switchable<NewEwma> ewma,
    @Nullable NewCusum cusum) {

  private static final ChartSettings USUAL = ChartSettings.DEFAULT;

  /** A moving average; what is left out has its default. */
  record NewEwma(@Nullable Double lambda, @Nullable Double width) {

    Ewma toEwma() {
      double weight = lambda == null ? Ewma.DEFAULT.lambda() : lambda;
      double wide = width == null ? Ewma.DEFAULT.width() : width;
      Ewma possible =
          Refusal.at("#/chart/ewma/lambda", () -> new Ewma(weight, Ewma.DEFAULT.width()));
      return Refusal.at("#/chart/ewma/width", () -> new Ewma(possible.lambda(), wide));
    }
  }

  /** A cumulative sum; what is left out has its usual value. */
  record NewCusum(
      @Nullable Double reference, @Nullable Double decision, @Nullable Double headStart) {

    Cusum toCusum() {
      double k = reference == null ? Cusum.USUAL.reference() : reference;
      double h = decision == null ? Cusum.USUAL.decision() : decision;
      double start = headStart == null ? Cusum.USUAL.headStart() : headStart;
      Refusal.at("#/chart/cusum/reference", () -> new Cusum(k, Cusum.USUAL.decision(), 0));
      Refusal.at("#/chart/cusum/decision", () -> new Cusum(k, h, 0));
      return Refusal.at("#/chart/cusum/headStart", () -> new Cusum(k, h, start));
    }
  }

  ChartSettings toSettings() {
    int size = size();
    Dispersion usually = size > 1 ? Dispersion.STANDARD_DEVIATION : USUAL.dispersion();
    Dispersion given = dispersion == null ? usually : dispersion;
    return new ChartSettings(
        size,
        Refusal.at("#/chart/dispersion", () -> given.forSubgroupsOf(size)),
        scale == null ? USUAL.scale() : scale,
        new Detectors(
            rules == null ? USUAL.detectors().rules() : chosenRules(rules),
            chosenEwma(),
            cusum == null ? null : cusum.toCusum()));
  }

  private int size() {
    int size = subgroupSize == null ? USUAL.subgroupSize() : subgroupSize;
    if (size < 1 || size > Subgroup.MAX_SIZE) {
      throw Refusal.impossible(
          "#/chart/subgroupSize",
          "A subgroup has 1 to %d values; 1 is for single results.".formatted(Subgroup.MAX_SIZE));
    }
    return size;
  }

  private @Nullable Ewma chosenEwma() {
    if (ewma == null) {
      return USUAL.detectors().ewma();
    }
    return ewma.value() == null ? null : ewma.value().toEwma();
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
