package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.capability.Capability;
import org.sapotrace.capability.Shape;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.measure.Rounding;
import org.sapotrace.refusal.Refusal;

/**
 * A stream's capability, in the interface's words; null for what there is none of.
 *
 * @param line the slug of the stream's line; null for a stream under no line
 * @param limitsRevision the limits by which the latest of its results was judged
 * @param specification what the product must meet
 * @param summary what it comes to, in a sentence
 * @param n how many results, of subgroups all their values; from when to when
 * @param method {@code normal}, or {@code percentiles} of skewed results
 * @param boundMethod {@code noncentral-t}, which is exact, or {@code bissell}, which is not
 * @param boxCoxLambda the power by which skewed results were made normal
 */
public record CapabilityData(
    @Nullable String line,
    String stream,
    String kind,
    String unit,
    int limitsRevision,
    ChartData.SpecificationData specification,
    String summary,
    int n,
    Instant from,
    Instant to,
    double mean,
    double standardDeviation,
    @Nullable Double cpu,
    @Nullable Double cpl,
    double cpk,
    double lowerBound,
    double confidence,
    String method,
    String boundMethod,
    @Nullable Double boxCoxLambda,
    Percentiles percentiles) {

  private static final double CONFIDENCE = 0.95;

  /** The percentiles 0.135, 50 and 99.865 of the distribution that describes the results. */
  public record Percentiles(double low, double median, double high) {}

  /**
   * The capability of the results at the end of a chart that were judged by the same centre and
   * sigma: what lies before belongs to another state of the process.
   *
   * @throws Refusal where it would mislead
   */
  public static CapabilityData of(Chart chart) {
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
    Shape shape = found.shape();
    PowerTransform transform = shape.transform();
    return new CapabilityData(
        chart.stream().line(),
        chart.stream().slug(),
        "capability",
        chart.stream().unit(),
        limits.revision(),
        new ChartData.SpecificationData(required.lower(), required.upper()),
        summary(chart, found),
        found.n(),
        points.get(0).point().result().sampledAt(),
        at,
        found.mean(),
        found.standardDeviation(),
        found.cpu(),
        found.cpl(),
        found.cpk(),
        found.lowerBound(),
        found.confidence(),
        transform == null ? "normal" : "percentiles",
        transform == null ? "noncentral-t" : "bissell",
        transform == null ? null : (Double) transform.lambda(),
        new Percentiles(shape.lowPercentile(), shape.median(), shape.highPercentile()));
  }

  private static List<JudgedPoint> sameLimits(Chart chart) {
    List<JudgedPoint> points = chart.points();
    LimitsRevision last = points.isEmpty() ? null : limits(chart, points.get(points.size() - 1));
    if (last == null) {
      throw Refusal.impossible(
          "Capability is told of a process in control, and the latest result was judged by no control"
              + " limits. Adopt limits first.");
    }
    int first = points.size() - 1;
    while (first > 0 && isUnder(last, limits(chart, points.get(first - 1)))) {
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
    String what = chart.stream().chart().isOfSubgroups() ? "values" : "results";
    String index = found.cpu() == null ? "Cpl" : found.cpl() == null ? "Cpu" : "Cpk";
    return "%s%s: %s %s of %d %s, at least %s with 95 %% confidence"
        .formatted(
            chart.stream().name(),
            line,
            index,
            Rounding.of(found.cpk()),
            found.n(),
            what,
            Rounding.of(found.lowerBound()));
  }
}
