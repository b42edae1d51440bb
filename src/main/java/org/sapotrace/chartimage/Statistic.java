package org.sapotrace.chartimage;

import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Point;
import org.sapotrace.controlchart.DriftRule;
import org.sapotrace.controlchart.SignalRule;

/** What is drawn of each result: one line of marks, or two where there are two sums. */
enum Statistic {
  /** What every chart shows; of two sums the upward one. */
  PLOTTED {
    @Override
    double of(Point point) {
      return point.plotted();
    }

    @Override
    boolean owns(Point point, SignalRule rule) {
      return Double.isNaN(point.below()) || rule != DriftRule.CUSUM_LOW;
    }
  },
  /** The downward sum, below zero. */
  BELOW {
    @Override
    double of(Point point) {
      return point.below();
    }

    @Override
    boolean owns(Point point, SignalRule rule) {
      return rule == DriftRule.CUSUM_LOW;
    }
  };

  static List<Statistic> of(ControlChart chart) {
    return chart.kind() == ControlChart.Kind.CUSUM ? List.of(values()) : List.of(PLOTTED);
  }

  abstract double of(Point point);

  /** Whether a signal of this rule is marked on this line. */
  abstract boolean owns(Point point, SignalRule rule);

  boolean signals(Point point) {
    return point.signals().stream().anyMatch(rule -> owns(point, rule));
  }

  /** The letters of the rules that signal at a point, as far as they are marked on this line. */
  String letters(Point point) {
    Set<SignalRule> signals = point.signals();
    return signals.stream()
        .filter(rule -> owns(point, rule))
        .map(rule -> String.valueOf(rule.letter()))
        .collect(Collectors.joining());
  }
}
