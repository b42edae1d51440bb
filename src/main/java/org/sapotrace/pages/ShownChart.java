package org.sapotrace.pages;

import org.sapotrace.bench.Bench;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.monitoring.Chart;
import org.sapotrace.monitoring.Charts;
import org.sapotrace.monitoring.ControlCharts;
import org.sapotrace.monitoring.PointSelection;

/**
 * The chart that a result stands on.
 *
 * @param narrow address of its picture for a narrow screen
 * @param wide address of its picture for a wide one
 * @param summary what it shows, in a sentence
 */
public record ShownChart(String narrow, String wide, String summary) {

  private static final int LATEST = 60;

  /** The latest results, or all of them where this one is not among the latest. */
  static ShownChart of(Bench.PlacedResult placed, Charts charts) {
    PointSelection latest = new PointSelection(LATEST, null, null);
    Chart chart = charts.chart(placed.stream(), latest, null);
    boolean isAmongThem =
        chart.points().stream()
            .anyMatch(point -> point.point().result().result().equals(placed.result().id()));
    if (!isAmongThem) {
      chart = charts.chart(placed.stream(), PointSelection.ALL, null);
    }
    ControlChart.Kind kind = placed.stream().chart().resultsChart();
    String address =
        "/api/v1%s/charts/%s.svg?%s"
            .formatted(
                Words.path(placed.stream()), kind.id(), isAmongThem ? "last=" + LATEST + "&" : "");
    return new ShownChart(
        address + "width=330&height=330",
        address + "width=704&height=420",
        ControlCharts.of(kind, chart).headline());
  }
}
