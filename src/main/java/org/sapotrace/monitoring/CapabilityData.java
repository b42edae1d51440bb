package org.sapotrace.monitoring;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import org.sapotrace.capability.Capability;
import org.sapotrace.capability.CapabilityChart;
import org.sapotrace.capability.Shape;
import org.sapotrace.controlchart.PowerTransform;
import org.sapotrace.refusal.Refusal;

/**
 * A stream's capability, in the interface's words; null for what there is none of.
 *
 * @param line the slug of the stream's line; null for a stream under no line
 * @param limitsRevision the limits by which the latest of its results was judged
 * @param specification what the product must meet
 * @param summary what it comes to, in a sentence
 * @param n how many results, from when to when
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

  /** The percentiles 0.135, 50 and 99.865 of the distribution that describes the results. */
  public record Percentiles(double low, double median, double high) {}

  /**
   * The capability of the results at the end of a chart.
   *
   * @throws Refusal where it would mislead
   */
  public static CapabilityData of(Chart chart) {
    CapabilityChart drawn = CapabilityCharts.of(chart);
    Capability found = drawn.capability();
    Shape shape = found.shape();
    PowerTransform transform = shape.transform();
    return new CapabilityData(
        chart.stream().line(),
        chart.stream().slug(),
        "capability",
        drawn.unit(),
        drawn.limitsRevision(),
        new ChartData.SpecificationData(drawn.lower(), drawn.upper()),
        drawn.headline(),
        found.n(),
        drawn.from(),
        drawn.to(),
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
}
