package org.sapotrace.monitoring.rest;

import com.fasterxml.jackson.annotation.JsonInclude;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.ObjectMapper;
import jakarta.enterprise.context.ApplicationScoped;
import java.time.Instant;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.monitoring.Chart;

/** A chart as data. */
@ApplicationScoped
class ChartJson {

  /** The chart in the interface's words. */
  record ChartView(
      String line,
      String stream,
      ControlChart.Kind kind,
      String unit,
      String scale,
      @Nullable Integer limitsRevision,
      @Nullable SpecificationView specification,
      String summary,
      List<PointView> points,
      List<Object> events) {}

  /** What the product must meet, in the interface's words; null for what there is none of. */
  record SpecificationView(@Nullable Double lower, @Nullable Double upper) {

    static @Nullable SpecificationView of(ControlChart.@Nullable Specification specification) {
      return specification == null
          ? null
          : new SpecificationView(specification.lower(), specification.upper());
    }
  }

  /** A point in the interface's words; null for what there is none of. */
  record PointView(
      String result,
      String batch,
      Instant at,
      double value,
      @Nullable Double plotted,
      @Nullable Integer limitsRevision,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      @Nullable Double z,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Double cusumHigh,
      @JsonInclude(JsonInclude.Include.NON_NULL) @Nullable Double cusumLow,
      Set<SignalRule> signals) {

    static PointView of(ControlChart.Point point) {
      boolean two = !Double.isNaN(point.below());
      return new PointView(
          point.result(),
          point.batch(),
          point.at(),
          point.value(),
          two || Double.isNaN(point.plotted()) ? null : (Double) point.plotted(),
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

  private final ObjectMapper json;

  ChartJson(ObjectMapper json) {
    this.json = json;
  }

  /** The bytes of the answer, from which its entity tag is made. */
  byte[] write(Chart chart, ControlChart data) {
    ChartView view =
        new ChartView(
            chart.line().slug(),
            chart.stream().slug(),
            data.kind(),
            data.unit(),
            "linear",
            data.limitsRevision(),
            SpecificationView.of(data.specification()),
            data.headline(),
            data.points().stream().map(PointView::of).toList(),
            List.of());
    try {
      return json.writeValueAsBytes(view);
    } catch (JsonProcessingException defect) {
      throw new IllegalStateException("A chart cannot be written", defect);
    }
  }
}
