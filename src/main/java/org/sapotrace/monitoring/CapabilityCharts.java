package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.capability.Capability;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/** Works out a capability from what there is to draw of a stream. */
public final class CapabilityCharts {

  private static final double CONFIDENCE = 0.95;

  private CapabilityCharts() {}

  /**
   * The capability of the results at the end of a chart that were judged by the same centre and
   * sigma: what lies before belongs to another state of the process.
   *
   * @throws Refusal where it would mislead
   */
  public static CapabilityChart of(Chart chart) {
    List<JudgedPoint> points = sameLimits(chart);
    JudgedPoint last = points.get(points.size() - 1);
    Judgement latest = Objects.requireNonNull(last.judgement(), "judged by those limits");
    LimitsRevision limits = chart.limits().get(latest.limitsRevision() - 1);
    refuseWhileSignalling(latest, limits);
    Instant at = last.point().result().sampledAt();
    Specification required = required(chart, at);
    double[] values =
        points.stream()
            .flatMap(p -> limits.values(p.point().result()).values().stream())
            .mapToDouble(Double::doubleValue)
            .toArray();
    Capability found = capability(values, required);
    return new CapabilityChart(
        summary(chart, found),
        chart.line() == null ? null : chart.line().name(),
        chart.stream().name(),
        chart.stream().measurand().label(),
        chart.stream().unit(),
        limits.revision(),
        points.get(0).point().result().sampledAt(),
        at,
        required.lower(),
        required.upper(),
        Arrays.stream(values).boxed().toList(),
        found);
  }

  private static List<JudgedPoint> sameLimits(Chart chart) {
    List<JudgedPoint> points = chart.points();
    if (points.isEmpty() && chart.selection().isOfPeriod()) {
      throw Refusal.impossible(
          "No result lies in the period asked for, so that nothing can be told of its capability: name an earlier from, or a later to.");
    }
    LimitsRevision last = points.isEmpty() ? null : limits(chart, points.get(points.size() - 1));
    if (last == null) {
      throw Refusal.impossible(
          "Capability is told of a process in control, and the latest result was judged by no control"
              + " limits. Adopt limits first.");
    }
    int first = points.size() - 1;
    while (first > 0
        && isUnder(last, limits(chart, points.get(first - 1)))
        && !chart.phases().separate(points.get(first - 1).point(), points.get(first).point())) {
      first--;
    }
    return points.subList(first, points.size());
  }

  private static boolean isUnder(LimitsRevision limits, @Nullable LimitsRevision judgedBy) {
    return judgedBy != null
        && judgedBy.limits().equals(limits.limits())
        && judgedBy.plotting().equals(limits.plotting());
  }

  private static @Nullable LimitsRevision limits(Chart chart, JudgedPoint point) {
    Judgement judgement = point.judgement();
    return judgement == null ? null : chart.limits().get(judgement.limitsRevision() - 1);
  }

  private static void refuseWhileSignalling(Judgement latest, LimitsRevision limits) {
    Set<SignalRule> signalling = latest.state().signalling(limits.detectors()).keySet();
    if (!signalling.isEmpty()) {
      throw Refusal.impossible(
          "The chart signals (%s), so that capability would mislead. Find the cause first, or choose a period that ends before."
              .formatted(signalling.iterator().next().description()));
    }
  }

  private static Specification required(Chart chart, Instant at) {
    return chart.stream()
        .specificationAt(at)
        .orElseThrow(
            () ->
                Refusal.impossible(
                    "Capability compares with a specification, and the stream has none. Put the stream with its specification."));
  }

  private static Capability capability(double[] values, Specification required) {
    try {
      return Capability.of(values, required.lower(), required.upper(), CONFIDENCE);
    } catch (IllegalArgumentException misleading) {
      throw Refusal.impossible(String.valueOf(misleading.getMessage()));
    }
  }

  private static String summary(Chart chart, Capability found) {
    String line = chart.line() == null ? "" : ", " + chart.line().name();
    return "%s%s: %s %s of %d %s, at least %s with 95 %% confidence"
        .formatted(
            chart.stream().name(),
            line,
            found.indexName(),
            Rounding.of(found.cpk()),
            found.n(),
            chart.stream().chart().isOfSubgroups() ? "values" : "results",
            Rounding.of(found.lowerBound()));
  }
}
