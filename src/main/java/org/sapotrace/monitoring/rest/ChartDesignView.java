package org.sapotrace.monitoring.rest;

import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.runlength.AverageRunLength;
import org.sapotrace.runlength.Suggestion;

/**
 * How long a chart runs, and charts that run as wanted.
 *
 * @param averageRunLength in the order of the shifts, 0 first; empty where no chart was asked about
 * @param falseAlarmsPerYear null where no chart was asked about
 * @param suggestions null where nothing was wanted
 */
record ChartDesignView(
    List<AverageRunLength> averageRunLength,
    @Nullable Double falseAlarmsPerYear,
    @Nullable List<SuggestedChart> suggestions) {

  /** Chart settings, as a stream takes them, and what they come to. */
  record SuggestedChart(
      Set<RunRule> rules,
      @Nullable Ewma ewma,
      @Nullable Cusum cusum,
      double averageRunLengthInControl,
      double averageRunLengthAtShift,
      double falseAlarmsPerYear,
      String reason) {

    private static SuggestedChart of(Suggestion suggestion, double resultsPerDay) {
      return new SuggestedChart(
          suggestion.detectors().rules(),
          suggestion.detectors().ewma(),
          suggestion.detectors().cusum(),
          suggestion.inControl(),
          suggestion.atShift(),
          AverageRunLength.signalsPerYear(suggestion.inControl(), resultsPerDay),
          suggestion.reason());
    }
  }

  static ChartDesignView of(
      List<AverageRunLength> runs, @Nullable List<Suggestion> suggestions, double resultsPerDay) {
    return new ChartDesignView(
        runs,
        runs.isEmpty()
            ? null
            : (Double) AverageRunLength.signalsPerYear(runs.get(0).mean(), resultsPerDay),
        suggestions == null
            ? null
            : suggestions.stream().map(each -> SuggestedChart.of(each, resultsPerDay)).toList());
  }
}
