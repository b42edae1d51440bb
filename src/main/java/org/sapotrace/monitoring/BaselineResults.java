package org.sapotrace.monitoring;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.sapotrace.baseline.BoxCox;
import org.sapotrace.baseline.Diagnostics;
import org.sapotrace.baseline.InsideSignal;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Subgroup;
import org.sapotrace.refusal.Refusal;

/**
 * The results chosen for a baseline.
 *
 * @param stretches in order, with a gap between each and the next where results were left out or a
 *     new phase began
 * @param subgroups whether they are looked at as subgroups, or each as a single result
 */
record BaselineResults(List<List<ChartedResult>> stretches, boolean subgroups) {

  /**
   * The chosen results without those that are left out.
   *
   * @throws Refusal if one is left out that was not chosen, or twice
   */
  static BaselineResults of(
      boolean subgroups, List<Point> chosen, List<Exclusion> excluded, Phases phases) {
    Map<UUID, Integer> out = new HashMap<>();
    for (int i = 0; i < excluded.size(); i++) {
      if (out.put(excluded.get(i).result(), i) != null) {
        throw Refusal.impossible(pointer(i), "This result is left out twice. Name it once.");
      }
    }
    List<List<ChartedResult>> stretches = new ArrayList<>();
    List<ChartedResult> stretch = new ArrayList<>();
    Point before = null;
    for (Point point : chosen) {
      if (before != null && phases.separate(before, point)) {
        stretches.add(stretch);
        stretch = new ArrayList<>();
      }
      before = point;
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
    return new BaselineResults(
        stretches.stream().filter(some -> !some.isEmpty()).toList(), subgroups);
  }

  private static String pointer(int exclusion) {
    return "#/exclude/%d/result".formatted(exclusion);
  }

  /** What of them is judged. */
  Baseline values() {
    return Baseline.ofSubgroups(stretches.stream().map(this::values).toList());
  }

  private List<Subgroup> values(List<ChartedResult> stretch) {
    return stretch.stream().map(result -> result.values(subgroups)).toList();
  }

  /** The same on a scale that takes it all. */
  private Baseline plotted(Plotting plotting) {
    return Baseline.ofSubgroups(
        values().stretches().stream()
            .map(stretch -> stretch.stream().map(plotting::plotted).toList())
            .toList());
  }

  /** The scale, or the linear one where some of these results have no place on it. */
  Scale scale(Scale wanted) {
    return Arrays.stream(values().singleValues()).allMatch(x -> x > 0) ? wanted : Scale.LINEAR;
  }

  /**
   * The scale with what these results say it needs.
   *
   * @throws IllegalArgumentException where they have no place on it
   */
  Plotting plotting(Scale scale) {
    double[] single = values().singleValues();
    long notPositive = Arrays.stream(single).filter(x -> !(x > 0)).count();
    if (scale != Scale.LINEAR && notPositive > 0) {
      throw new IllegalArgumentException(
          "%d of the %d %s of the baseline %s at or below 0, where a %s scale has no place. Check the blank, choose a baseline without them, or set chart.scale to linear."
              .formatted(
                  notPositive,
                  single.length,
                  subgroups ? "values" : "results",
                  notPositive == 1 ? "is" : "are",
                  scale.id()));
    }
    return switch (scale) {
      case LINEAR -> Plotting.LINEAR;
      case LOG -> Plotting.LOG;
      case BOX_COX -> {
        BoxCox power = BoxCox.of(single);
        if (power == null) {
          throw new IllegalArgumentException(
              "These results are too few or too much alike to tell the power of a Box-Cox scale. Take a longer baseline, or set chart.scale to linear or log.");
        }
        yield Plotting.boxCox(power.lambda());
      }
    };
  }

  /**
   * Limits of single values taken from these results, on that scale.
   *
   * @param nonNegative whether the true quantity cannot be negative
   * @throws IllegalArgumentException where there are none
   */
  ControlLimits limits(Plotting plotting, Dispersion dispersion, boolean nonNegative) {
    // On the other scales there is room below zero.
    boolean none = nonNegative && plotting.scale() == Scale.LINEAR;
    return subgroups
        ? serving(ControlLimits.fromSubgroups(plotted(plotting), dispersion, none))
        : ControlLimits.from(plotted(plotting), dispersion, none);
  }

  /**
   * The limits, which must serve subgroups of any size.
   *
   * @throws IllegalArgumentException where means of many values could not be told from the centre
   */
  static ControlLimits serving(ControlLimits limits) {
    limits.ofMeans(Subgroup.MAX_SIZE);
    return limits;
  }

  /** How many there are, from when to when. */
  LimitsRevision.Baseline span() {
    List<ChartedResult> results = results();
    return new LimitsRevision.Baseline(
        results.size(), results.get(0).sampledAt(), results.get(results.size() - 1).sampledAt());
  }

  /** What they say about themselves under the limits taken from them. */
  BaselineDiagnostics diagnose(
      Plotting plotting, ControlLimits limits, Dispersion dispersion, Detectors detectors) {
    Baseline plotted = plotted(plotting);
    return BaselineDiagnostics.of(
        Diagnostics.of(values(), plotted, InsideSignal.of(plotted, limits, detectors)),
        results(),
        dispersion,
        plotting.scale(),
        limits.nonNegative());
  }

  private List<ChartedResult> results() {
    return stretches.stream().flatMap(List::stream).toList();
  }
}
