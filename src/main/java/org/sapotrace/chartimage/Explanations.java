package org.sapotrace.chartimage;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.Plotting;
import org.sapotrace.controlchart.SignalRule;

/** The words under a plot that explain its marks. */
final class Explanations {

  private final ControlChart chart;

  Explanations(ControlChart chart) {
    this.chart = chart;
  }

  /** What the marks and letters mean, each said only where it is used. */
  List<String> pieces(boolean bars, Axis axis) {
    List<String> pieces = new ArrayList<>();
    for (SignalRule rule : signalled()) {
      pieces.add(rule.letter() + "  " + rule.description());
    }
    if (anySignalGoesOn()) {
      pieces.add("diamond without letters: as the one before it");
    }
    if (!chart.kind().gathers() && chart.points().stream().anyMatch(Point::belowDetection)) {
      pieces.add("circle on a tick: no more titrant than the blank");
    }
    if (chart.kind() == ControlChart.Kind.INDIVIDUALS
        && chart.points().stream().anyMatch(point -> Double.isNaN(point.onScale()))) {
      pieces.add(
          "at or below 0, where a %s scale has no place: judged as %d standard deviations low"
              .formatted(chart.scale().id(), Plotting.BELOW_THE_SCALE));
    }
    if (bars) {
      pieces.add("vertical bar: ± 2 standard uncertainties");
    }
    pieces.addAll(happenings());
    if (axis == Axis.SEQUENCE) {
      pieces.add("results in sequence, not in time");
    }
    return pieces;
  }

  /** What stands there besides results that count. */
  private List<String> happenings() {
    List<String> pieces = new ArrayList<>();
    if (chart.changes().stream().anyMatch(this::hasBracket)) {
      pieces.add("bracket: where the change may have begun");
    }
    ValueScale values = ValueScale.of(chart, ChartPainter.ANY_HEIGHT, 1);
    long shown = chart.withdrawn().stream().filter(r -> values.shows(r.value())).count();
    if (shown > 0) {
      pieces.add("hollow circle: withdrawn");
    }
    if (chart.withdrawn().size() > shown) {
      pieces.add("withdrawn, far beyond the picture: " + (chart.withdrawn().size() - shown));
    }
    return pieces;
  }

  private boolean hasBracket(ControlChart.Change change) {
    return change.earliest() != null
        && change.latest() != null
        && change.latest().isAfter(change.earliest())
        && !Notes.isBefore(chart, change.latest());
  }

  /** Whether two results running have the same signals, of which only the first gets letters. */
  private boolean anySignalGoesOn() {
    List<Point> points = chart.points();
    return IntStream.range(1, points.size())
        .anyMatch(
            i ->
                !points.get(i).signals().isEmpty()
                    && points.get(i).signals().equals(points.get(i - 1).signals()));
  }

  /** The rules that signal anywhere, in the order of all rules. */
  List<SignalRule> signalled() {
    Set<SignalRule> rules = new HashSet<>();
    chart.points().forEach(point -> rules.addAll(point.signals()));
    return SignalRule.ALL.stream().filter(rules::contains).toList();
  }
}
