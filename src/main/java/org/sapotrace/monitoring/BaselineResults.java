package org.sapotrace.monitoring;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.sapotrace.baseline.Diagnostics;
import org.sapotrace.baseline.InsideSignal;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.refusal.Refusal;

/**
 * The results chosen for a baseline.
 *
 * @param stretches in order, with a gap between each and the next where results were left out
 */
record BaselineResults(List<List<ChartedResult>> stretches) {

  /**
   * The chosen results without those that are left out.
   *
   * @throws Refusal if one is left out that was not chosen, or twice
   */
  static BaselineResults of(List<Point> chosen, List<Exclusion> excluded) {
    Map<UUID, Integer> out = new HashMap<>();
    for (int i = 0; i < excluded.size(); i++) {
      if (out.put(excluded.get(i).result(), i) != null) {
        throw Refusal.impossible(pointer(i), "This result is left out twice. Name it once.");
      }
    }
    List<List<ChartedResult>> stretches = new ArrayList<>();
    List<ChartedResult> stretch = new ArrayList<>();
    for (Point point : chosen) {
      if (out.remove(point.result().result()) == null) {
        stretch.add(point.result());
      } else {
        stretches.add(stretch);
        stretch = new ArrayList<>();
      }
    }
    stretches.add(stretch);
    out.forEach(
        (result, i) -> {
          throw Refusal.impossible(
              pointer(i),
              "Result %s is not in the baseline, so it cannot be left out of it. Name only those that are."
                  .formatted(result));
        });
    return new BaselineResults(stretches.stream().filter(some -> !some.isEmpty()).toList());
  }

  private static String pointer(int exclusion) {
    return "#/exclude/%d/result".formatted(exclusion);
  }

  /** Their values. */
  Baseline values() {
    return Baseline.withGaps(
        stretches.stream()
            .map(stretch -> stretch.stream().mapToDouble(ChartedResult::value).toArray())
            .toList());
  }

  /** How many there are, from when to when. */
  LimitsRevision.Baseline span() {
    List<ChartedResult> results = results();
    return new LimitsRevision.Baseline(
        results.size(), results.get(0).sampledAt(), results.get(results.size() - 1).sampledAt());
  }

  /** What they say about themselves under the limits taken from them. */
  BaselineDiagnostics diagnose(ControlLimits limits, Dispersion dispersion, Detectors detectors) {
    Baseline values = values();
    return BaselineDiagnostics.of(
        Diagnostics.of(values, InsideSignal.of(values, limits, detectors)),
        results(),
        dispersion,
        limits.nonNegative());
  }

  private List<ChartedResult> results() {
    return stretches.stream().flatMap(List::stream).toList();
  }
}
