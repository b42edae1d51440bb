package org.sapotrace.pages;

import org.sapotrace.bench.Bench;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.ControlCharts;
import org.sapotrace.monitoring.PointSelection;
import org.sapotrace.productline.Stream;

/**
 * The chart of a stream's results.
 *
 * @param narrow address of its picture for a narrow screen
 * @param wide address of its picture for a wide one
 * @param summary what it shows, in a sentence
 */
public record ShownChart(String narrow, String wide, String summary) {

  private static final int MOST = 60;

  /** So many results are shown where nothing else is asked for. */
  static final PointSelection LATEST = new PointSelection(MOST, null, null);

  /** The latest results, or all of them where this one is not among the latest. */
  static ShownChart of(Bench.PlacedResult placed, Charts charts) {
    Chart chart = charts.chart(placed.stream(), LATEST, null);
    boolean isAmongThem =
        chart.points().stream()
            .anyMatch(point -> point.point().result().result().equals(placed.result().id()));
    return isAmongThem
        ? ofLatest(chart)
        : of(charts.chart(placed.stream(), PointSelection.ALL, null), "");
  }

  /** The chart of the latest results. */
  static ShownChart ofLatest(Chart chart) {
    return of(chart, "last=" + MOST + "&");
  }

  private static ShownChart of(Chart chart, String selection) {
    ControlChart.Kind kind = chart.stream().chart().resultsChart();
    String address = address(chart.stream(), "svg") + "?" + selection;
    return new ShownChart(
        address + "width=330&height=330",
        address + "width=704&height=420",
        ControlCharts.of(kind, chart).headline());
  }

  /** Where the chart of a stream's results is to be had in a format. */
  static String address(Stream stream, String format) {
    return "/api/v1%s/charts/%s.%s"
        .formatted(Words.path(stream), stream.chart().resultsChart().id(), format);
  }
}
