package org.sapotrace.monitoring;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.Predicate;
import org.jspecify.annotations.Nullable;
import org.sapotrace.chemistry.Specification;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.productline.DatedSpecification;
import org.sapotrace.productline.Stream;
import org.sapotrace.refusal.Refusal;

/** Makes the data of a picture from what there is to draw of a stream. */
public final class ControlCharts {

  private ControlCharts() {}

  /**
   * The chart of a kind.
   *
   * @throws Refusal where the stream has never had the statistic that is asked for
   */
  public static ControlChart of(ControlChart.Kind kind, Chart chart) {
    Stream stream = chart.stream();
    refuseWithout(kind, chart);
    ChartPoints charted = new ChartPoints(chart);
    List<ControlChart.Point> points = charted.of(kind);
    Changes changes = new Changes(chart.signals(), points);
    LimitsRevision limits = limitsAtTheEnd(chart, charted);
    return new ControlChart(
        kind,
        Headline.of(kind, chart, points, changes),
        chart.line() == null ? null : chart.line().name(),
        stream.name(),
        stream.measurand().label(),
        stream.unit(),
        limits == null ? stream.chart().scale() : limits.plotting().scale(),
        limits == null ? null : limits.revision(),
        limits == null ? null : limits.status().id(),
        limits == null ? stream.chart().detectors() : limits.detectors(),
        kind == ControlChart.Kind.INDIVIDUALS ? specification(chart) : null,
        points,
        kind == ControlChart.Kind.INDIVIDUALS ? withdrawn(chart) : List.of(),
        List.of(),
        changes.drawn());
  }

  private static List<ControlChart.Withdrawn> withdrawn(Chart chart) {
    return chart.withdrawn().stream()
        .map(result -> new ControlChart.Withdrawn(result.sampledAt(), result.value()))
        .toList();
  }

  private static void refuseWithout(ControlChart.Kind kind, Chart chart) {
    Predicate<Detectors> has =
        switch (kind) {
          case INDIVIDUALS, MOVING_RANGE -> detectors -> true;
          case EWMA -> detectors -> detectors.ewma() != null;
          case CUSUM -> detectors -> detectors.cusum() != null;
        };
    boolean ever =
        has.test(chart.stream().chart().detectors())
            || chart.limits().stream().map(LimitsRevision::detectors).anyMatch(has);
    if (!ever) {
      throw Refusal.unknown(
          "Stream %s has no %s chart. Put it with chart.%s set, and results are judged by it from then on."
              .formatted(chart.stream().slug(), kind.label(), kind.id()));
    }
  }

  /** The limits that the last point was judged by; before any point, those laid down last. */
  private static @Nullable LimitsRevision limitsAtTheEnd(Chart chart, ChartPoints charted) {
    if (chart.points().isEmpty()) {
      return chart.limits().isEmpty() ? null : chart.limits().get(chart.limits().size() - 1);
    }
    return charted.revision(chart.points().get(chart.points().size() - 1));
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
