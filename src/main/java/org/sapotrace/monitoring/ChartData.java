package org.sapotrace.monitoring;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.productline.PlantEvent;

/**
 * A chart as data, in the interface's words; null for what there is none of.
 *
 * @param line the slug of the stream's line; null for a stream under no line
 * @param summary what the chart shows, in a sentence
 * @param events of the period shown that touch the stream
 */
public record ChartData(
    @Nullable String line,
    String stream,
    ControlChart.Kind kind,
    String unit,
    Scale scale,
    @Nullable Integer limitsRevision,
    @Nullable SpecificationData specification,
    String summary,
    List<PointData> points,
    List<EventData> events) {

  /** What happened at the plant. */
  public record EventData(Instant at, PlantEvent.Kind kind, @Nullable String note) {

    static EventData of(PlantEvent event) {
      return new EventData(event.at(), event.kind(), event.note());
    }
  }

  /** What the product must meet, in the interface's words; null for what there is none of. */
  public record SpecificationData(@Nullable Double lower, @Nullable Double upper) {

    static @Nullable SpecificationData of(ControlChart.@Nullable Specification specification) {
      return specification == null
          ? null
          : new SpecificationData(specification.lower(), specification.upper());
    }
  }

  /**
   * A point in the interface's words; null for what there is none of.
   *
   * @param n of how many values the result is the mean; left out on charts of single results
   * @param cusumHigh the upward sum; left out on other charts than that of cumulative sums
   * @param cusumLow the downward sum, likewise
   */
  public record PointData(
      String result,
      String batch,
      Instant at,
      double value,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Integer n,
      @Nullable Double plotted,
      @Nullable Integer limitsRevision,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      @Nullable Double z,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Double cusumHigh,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Double cusumLow,
      Set<SignalRule> signals) {

    static PointData of(ControlChart.Point point) {
      boolean two = !Double.isNaN(point.below());
      return new PointData(
          point.result(),
          point.batch(),
          point.at(),
          point.value(),
          point.size(),
          Double.isNaN(point.onScale()) ? null : (Double) point.onScale(),
          point.limitsRevision(),
          point.centre(),
          point.upper(),
          point.lower(),
          point.z(),
          two ? (Double) point.plotted() : null,
          two ? (Double) (0 - point.below()) : null,
          point.signals());
    }
  }

  /** The data of a chart of that kind. */
  public static ChartData of(ControlChart.Kind kind, Chart chart) {
    ControlChart drawn = ControlCharts.of(kind, chart);
    return new ChartData(
        chart.stream().line(),
        chart.stream().slug(),
        drawn.kind(),
        drawn.unit(),
        drawn.scale(),
        drawn.limitsRevision(),
        SpecificationData.of(drawn.specification()),
        drawn.headline(),
        drawn.points().stream().map(PointData::of).toList(),
        chart.events().stream().map(EventData::of).toList());
  }
}
