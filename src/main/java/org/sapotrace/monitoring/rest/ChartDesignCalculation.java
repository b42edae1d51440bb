package org.sapotrace.monitoring.rest;

import com.fasterxml.jackson.annotation.JsonFormat;
import jakarta.validation.Valid;
import jakarta.validation.constraints.DecimalMax;
import jakarta.validation.constraints.DecimalMin;
import jakarta.validation.constraints.NotNull;
import jakarta.validation.constraints.Size;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.refusal.Refusal;
import org.sapotrace.runlength.AverageRunLength;
import org.sapotrace.runlength.ChartDesign;
import org.sapotrace.runlength.Suggestion;
import org.sapotrace.runlength.Wanted;

/**
 * What is to raise signals, as in the chart settings of a stream, but that what is left out is not
 * included; or what is wanted of a chart; or both.
 */
record ChartDesignCalculation(
    @JsonFormat(with = JsonFormat.Feature.ACCEPT_SINGLE_VALUE_AS_ARRAY) @Size(max = 20)
        @Nullable List<@NotNull String> rules,
    @Nullable NewEwma ewma,
    @Valid @Nullable NewCusum cusum,
    @Nullable Boolean movingRange,
    @DecimalMin(value = "0", inclusive = false) @DecimalMax("10000") @Nullable Double resultsPerDay,
    @Valid @Nullable NewWanted wanted) {

  private static final double ONE_A_DAY = 1;
  private static final Detectors NOTHING = new Detectors(Set.of(), null, null);
  private static final double[] SHIFTS = {0, 0.25, 0.5, 0.75, 1, 1.5, 2, 3};

  /** An EWMA; what is left out has its usual value. */
  record NewEwma(@Nullable Double lambda, @Nullable Double width) {

    Ewma toEwma() {
      double weight = lambda == null ? Ewma.DEFAULT.lambda() : lambda;
      double wide = width == null ? Ewma.DEFAULT.width() : width;
      Refusal.at("#/ewma/lambda", () -> new Ewma(weight, Ewma.DEFAULT.width()));
      return Refusal.at("#/ewma/width", () -> new Ewma(weight, wide));
    }
  }

  /** A CUSUM; what is left out has its usual value. */
  record NewCusum(
      @DecimalMax("3") @Nullable Double reference,
      @DecimalMax("20") @Nullable Double decision,
      @Nullable Double headStart) {

    Cusum toCusum() {
      double k = reference == null ? Cusum.USUAL.reference() : reference;
      double h = decision == null ? Cusum.USUAL.decision() : decision;
      double start = headStart == null ? Cusum.USUAL.headStart() : headStart;
      Refusal.at("#/cusum/reference", () -> new Cusum(k, Cusum.USUAL.decision(), 0));
      Refusal.at("#/cusum/decision", () -> new Cusum(k, h, 0));
      return Refusal.at("#/cusum/headStart", () -> new Cusum(k, h, start));
    }
  }

  /** What is wanted of a chart; the shift in sigma, or in mg/kg and sigma with it. */
  record NewWanted(
      @NotNull @DecimalMin(value = "0", inclusive = false) @DecimalMax("1e6")
          Double falseAlarmsPerYear,
      @Nullable Double shift,
      @DecimalMin(value = "0", inclusive = false) @DecimalMax("1e6") @Nullable Double shiftMgPerKg,
      @DecimalMin(value = "0", inclusive = false) @DecimalMax("1e6")
          @Nullable Double sigmaMgPerKg) {

    List<Suggestion> suggestions(double perDay) {
      double inControl = Wanted.inControl(falseAlarmsPerYear, perDay);
      double size = Refusal.at("#/wanted", this::sizeInSigma);
      return Refusal.at("#/wanted", () -> new Wanted(inControl, size)).suggestions();
    }

    private double sizeInSigma() {
      if (shift != null && shiftMgPerKg == null && sigmaMgPerKg == null) {
        return shift;
      }
      if (shift == null && shiftMgPerKg != null && sigmaMgPerKg != null) {
        return shiftMgPerKg / sigmaMgPerKg;
      }
      throw new IllegalArgumentException(
          "Say how large the shift is that is worth finding: shift in standard deviations, or shiftMgPerKg together with sigmaMgPerKg, the sigma of the stream's limits.");
    }
  }

  ChartDesignView answer() {
    double perDay = resultsPerDay == null ? ONE_A_DAY : resultsPerDay;
    return ChartDesignView.of(runs(), wanted == null ? null : wanted.suggestions(perDay), perDay);
  }

  /** The run lengths of the design; none where there is no design, but something is wanted. */
  private List<AverageRunLength> runs() {
    Detectors detectors =
        new Detectors(
            chosenRules(),
            ewma == null ? null : ewma.toEwma(),
            cusum == null ? null : cusum.toCusum());
    boolean moving = Boolean.TRUE.equals(movingRange);
    if (wanted != null && !moving && detectors.equals(NOTHING)) {
      return List.of();
    }
    try {
      return new ChartDesign(detectors, moving).averageRunLengths(SHIFTS);
    } catch (IllegalArgumentException impossible) {
      throw Refusal.impossible(String.valueOf(impossible.getMessage()));
    }
  }

  /** Rules by their own names and by the names of sets. */
  private Set<RunRule> chosenRules() {
    Set<RunRule> chosen = EnumSet.noneOf(RunRule.class);
    for (int i = 0; rules != null && i < rules.size(); i++) {
      String name = rules.get(i);
      chosen.addAll(Refusal.at("#/rules/" + i, () -> RunRule.allNamed(name)));
    }
    return chosen;
  }
}
