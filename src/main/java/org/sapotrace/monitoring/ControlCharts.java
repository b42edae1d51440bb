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
        kind.showsResults() ? specification(chart) : null,
        points,
        kind.showsResults() ? withdrawn(chart) : List.of(),
        events(chart),
        changes.drawn());
  }

  private static List<ControlChart.Withdrawn> withdrawn(Chart chart) {
    return chart.withdrawn().stream()
        .map(result -> new ControlChart.Withdrawn(result.sampledAt(), result.value()))
        .toList();
  }

  private static List<ControlChart.Event> events(Chart chart) {
    return chart.events().stream()
        .map(event -> new ControlChart.Event(event.at(), event.kind().id(), event.note()))
        .toList();
  }

  private static void refuseWithout(ControlChart.Kind kind, Chart chart) {
    refuseOther(kind, chart.stream());
    Predicate<Detectors> has =
        switch (kind) {
          case EWMA -> detectors -> detectors.ewma() != null;
          case CUSUM -> detectors -> detectors.cusum() != null;
          default -> detectors -> true;
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

  /** Single results and subgroups have charts of their own. */
  private static void refuseOther(ControlChart.Kind kind, Stream stream) {
    boolean ofSubgroups = stream.chart().isOfSubgroups();
    boolean isOther =
        switch (kind) {
          case INDIVIDUALS, MOVING_RANGE -> ofSubgroups;
          case MEAN, RANGE, STANDARD_DEVIATION -> !ofSubgroups;
          case EWMA, CUSUM -> false;
        };
    if (isOther) {
      throw Refusal.unknown(
          ofSubgroups
              ? "Stream %s has no %s chart, because it is charted by subgroups. Ask for mean, range or standard-deviation."
                  .formatted(stream.slug(), kind.id())
              : "Stream %s has no %s chart, because it is charted by single results. Ask for individuals or moving-range, or put it with chart.subgroupSize set."
                  .formatted(stream.slug(), kind.id()));
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
