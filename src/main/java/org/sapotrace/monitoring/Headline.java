package org.sapotrace.monitoring;

import java.time.Instant;
import java.util.List;
import org.sapotrace.controlchart.ControlChart;

/** Says in one sentence what a chart shows. */
final class Headline {

  private static final String NONE_IN_PERIOD = "no result lies in the period asked for";

  private Headline() {}

  static String of(
      ControlChart.Kind kind, Chart chart, List<ControlChart.Point> points, Changes changes) {
    String message =
        points.isEmpty() && chart.selection().isOfPeriod() ? NONE_IN_PERIOD : message(kind, points);
    String line = chart.line() == null ? "" : ", " + chart.line().name();
    return "%s%s: %s%s"
        .formatted(chart.stream().name(), line, message, change(chart, points, changes));
  }

  private static String message(ControlChart.Kind kind, List<ControlChart.Point> points) {
    return switch (kind) {
      case INDIVIDUALS, MEAN -> results(points);
      case MOVING_RANGE -> spreads("moving range", points);
      case RANGE -> spreads("range", points);
      case STANDARD_DEVIATION -> spreads("standard deviation", points);
      case EWMA -> drift("moving average", "limit", points);
      case CUSUM -> drift("cumulative sum", "decision value", points);
    };
  }

  /** Since when, where that is not the day on which the signals at the end began. */
  private static String change(Chart chart, List<ControlChart.Point> points, Changes changes) {
    if (points.isEmpty() || points.get(points.size() - 1).signals().isEmpty()) {
      return "";
    }
    Instant began = changes.behind(chart.points().get(points.size() - 1).point().place());
    if (began == null) {
      return "";
    }
    String day = Changes.DAY.format(began);
    return day.equals(Changes.DAY.format(beginningOfLastRun(points)))
        ? ""
        : ", change about " + day;
  }

  private static String results(List<ControlChart.Point> points) {
    if (points.isEmpty()) {
      return "no results yet";
    }
    ControlChart.Point last = points.get(points.size() - 1);
    if (last.centre() == null) {
      return results(points.size()) + ", no control limits yet";
    }
    if (!last.signals().isEmpty()) {
      return "out of control since " + Changes.DAY.format(beginningOfLastRun(points));
    }
    long signalled = points.stream().filter(point -> !point.signals().isEmpty()).count();
    return signalled == 0
        ? "in control, no signal in " + results(points.size())
        : "%s signalled, not the latest".formatted(of(signalled, points.size()));
  }

  private static String spreads(String spread, List<ControlChart.Point> points) {
    long spreads = points.stream().filter(point -> !Double.isNaN(point.plotted())).count();
    if (spreads == 0) {
      return "no %ss yet".formatted(spread);
    }
    if (points.stream().allMatch(point -> point.upper() == null)) {
      return "%d %s%s, no control limits yet".formatted(spreads, spread, spreads == 1 ? "" : "s");
    }
    long above = points.stream().filter(Headline::isAbove).count();
    long below = points.stream().filter(Headline::isBelow).count();
    if (above + below == 0) {
      boolean isOneSided = points.stream().allMatch(point -> point.lower() == null);
      return "no %s %s its control limit%s"
          .formatted(spread, isOneSided ? "above" : "beyond", isOneSided ? "" : "s");
    }
    return "%d of %d %ss %s the control limit"
        .formatted(
            above + below, spreads, spread, below == 0 ? "above" : above == 0 ? "below" : "beyond");
  }

  private static boolean isAbove(ControlChart.Point point) {
    return point.upper() != null && point.plotted() > point.upper();
  }

  private static boolean isBelow(ControlChart.Point point) {
    double lowest = Double.isNaN(point.below()) ? point.plotted() : point.below();
    return point.lower() != null && lowest < point.lower();
  }

  /** What a statistic that gathers small shifts has come to. */
  private static String drift(String statistic, String limit, List<ControlChart.Point> points) {
    long judged = points.stream().filter(point -> !Double.isNaN(point.plotted())).count();
    if (judged == 0) {
      return "no %s yet".formatted(statistic);
    }
    ControlChart.Point last = points.get(points.size() - 1);
    if (!last.signals().isEmpty()) {
      return "%s %s its %s since %s"
          .formatted(
              statistic, beyond(last), limit, Changes.DAY.format(beginningOfLastRun(points)));
    }
    long signalled = points.stream().filter(point -> !point.signals().isEmpty()).count();
    return signalled == 0
        ? "%s within its %ss at %s".formatted(statistic, limit, results(judged))
        : "%s beyond its %s at %s, not the latest"
            .formatted(statistic, limit, of(signalled, judged));
  }

  private static String beyond(ControlChart.Point point) {
    boolean high = isAbove(point);
    boolean low = isBelow(point);
    return high && low ? "beyond" : high ? "above" : "below";
  }

  /** When the first of the results that signal without a break up to the last one was sampled. */
  private static Instant beginningOfLastRun(List<ControlChart.Point> points) {
    int first = points.size() - 1;
    while (first > 0 && !points.get(first - 1).signals().isEmpty()) {
      first--;
    }
    return points.get(first).at();
  }

  private static String results(long count) {
    return count == 1 ? "1 result" : count + " results";
  }

  private static String of(long part, long whole) {
    return "%d of %s".formatted(part, results(whole));
  }
}
