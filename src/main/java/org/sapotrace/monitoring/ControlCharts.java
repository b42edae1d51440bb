package org.sapotrace.monitoring;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.productline.DatedSpecification;
import org.sapotrace.productline.Stream;

/** Makes the data of a picture from what there is to draw of a stream. */
public final class ControlCharts {

  private ControlCharts() {}

  /** The chart of a kind. */
  public static ControlChart of(ControlChart.Kind kind, Chart chart) {
    Stream stream = chart.stream();
    List<ControlChart.Point> points =
        switch (kind) {
          case INDIVIDUALS -> individuals(chart);
          case MOVING_RANGE -> movingRanges(chart);
        };
    LimitsRevision limits = limitsAtTheEnd(chart);
    return new ControlChart(
        kind,
        Headline.of(kind, chart, points),
        chart.line() == null ? null : chart.line().name(),
        stream.name(),
        stream.measurand().label(),
        stream.unit(),
        limits == null ? null : limits.revision(),
        limits == null ? null : limits.status().id(),
        limits == null ? stream.chart().rules() : limits.rules(),
        kind == ControlChart.Kind.INDIVIDUALS ? specification(chart) : null,
        points);
  }

  private static List<ControlChart.Point> individuals(Chart chart) {
    return chart.points().stream().map(judged -> individual(chart, judged)).toList();
  }

  private static ControlChart.Point individual(Chart chart, JudgedPoint judged) {
    ChartedResult result = judged.point().result();
    Judgement judgement = judged.judgement();
    ControlLimits limits = limits(chart, judgement);
    return point(
        result,
        result.value(),
        result.standardUncertainty(),
        judgement,
        limits == null ? null : limits.centre(),
        limits == null ? null : limits.upper(),
        limits == null ? null : limits.lower(),
        limits == null ? null : limits.z(result.value()),
        judgement == null ? Set.of() : judgement.rules());
  }

  /** A range reaches from one result to the next, but not over the border of a phase. */
  private static List<ControlChart.Point> movingRanges(Chart chart) {
    List<ControlChart.Point> ranges = new ArrayList<>();
    JudgedPoint before = chart.before();
    for (JudgedPoint judged : chart.points()) {
      ChartedResult result = judged.point().result();
      ControlLimits limits = limits(chart, judged.judgement());
      double range =
          before != null && Objects.equals(revision(before), revision(judged))
              ? Math.abs(result.value() - before.point().result().value())
              : Double.NaN;
      ranges.add(
          point(
              result,
              range,
              null,
              judged.judgement(),
              limits == null ? null : limits.dispersionCentre(),
              limits == null ? null : limits.dispersionUpper(),
              limits == null ? null : limits.dispersionLower(),
              null,
              Set.of()));
      before = judged;
    }
    return ranges;
  }

  private static ControlChart.Point point(
      ChartedResult result,
      double plotted,
      @Nullable Double standardUncertainty,
      @Nullable Judgement judgement,
      @Nullable Double centre,
      @Nullable Double upper,
      @Nullable Double lower,
      @Nullable Double z,
      Set<RunRule> signals) {
    return new ControlChart.Point(
        result.result().toString(),
        result.batch(),
        result.sampledAt(),
        result.value(),
        plotted,
        standardUncertainty,
        result.belowDetection(),
        judgement == null ? null : (Integer) judgement.limitsRevision(),
        centre,
        upper,
        lower,
        z,
        signals);
  }

  private static @Nullable Integer revision(JudgedPoint judged) {
    Judgement judgement = judged.judgement();
    return judgement == null ? null : (Integer) judgement.limitsRevision();
  }

  private static @Nullable ControlLimits limits(Chart chart, @Nullable Judgement judgement) {
    return judgement == null ? null : chart.limits().get(judgement.limitsRevision() - 1).limits();
  }

  /** The limits that the last point was judged by; before any point, those laid down last. */
  private static @Nullable LimitsRevision limitsAtTheEnd(Chart chart) {
    if (chart.points().isEmpty()) {
      return chart.limits().isEmpty() ? null : chart.limits().get(chart.limits().size() - 1);
    }
    Integer revision = revision(chart.points().get(chart.points().size() - 1));
    return revision == null ? null : chart.limits().get(revision - 1);
  }

  /** The specification for the last sample on the chart, and since when it has held. */
  private static ControlChart.@Nullable Specification specification(Chart chart) {
    if (chart.points().isEmpty()) {
      return null;
    }
    Stream stream = chart.stream();
    Instant first = chart.points().get(0).point().result().sampledAt();
    Instant last = chart.points().get(chart.points().size() - 1).point().result().sampledAt();
    Specification limits = stream.specificationAt(last).orElse(null);
    if (limits == null) {
      return null;
    }
    boolean heldThroughout = limits.equals(stream.specificationAt(first).orElse(null));
    LocalDate from =
        stream
            .inForceOn(LocalDate.ofInstant(last, ZoneOffset.UTC))
            .map(DatedSpecification::from)
            .orElse(null);
    return new ControlChart.Specification(
        limits.lower(),
        limits.upper(),
        heldThroughout || from == null ? null : from.atStartOfDay(ZoneOffset.UTC).toInstant());
  }
}
