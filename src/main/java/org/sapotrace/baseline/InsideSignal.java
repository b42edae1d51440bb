package org.sapotrace.baseline;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ChartState;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Side;
import org.sapotrace.controlchart.SignalRule;
import org.sapotrace.controlchart.Subgroup;

/**
 * A rule that holds inside the baseline, under the limits taken from it: a sign that the process
 * was not in control while they were gathered.
 *
 * @param side on which side of the centre, or which way
 * @param results the numbers of the results at which the rule holds, counting from 0; at least one
 */
public record InsideSignal(SignalRule rule, Side side, List<Integer> results) {

  public InsideSignal {
    results = List.copyOf(results);
  }

  /**
   * All rules that hold inside, in the order in which each first does. Runs and averages start
   * afresh behind a gap.
   *
   * @param plotted the baseline as it is plotted
   * @param limits of single values, in the same unit
   */
  public static List<InsideSignal> of(Baseline plotted, ControlLimits limits, Detectors detectors) {
    record Key(SignalRule rule, Side side) {}
    Map<Key, List<Integer>> holding = new LinkedHashMap<>();
    int number = 0;
    for (List<Subgroup> stretch : plotted.stretches()) {
      ChartState state = ChartState.START;
      for (Subgroup result : stretch) {
        state = state.next(result.mean(), result.size(), limits, detectors);
        Map<SignalRule, Side> sides = state.signalling(detectors);
        for (SignalRule rule : state.holding(limits, detectors)) {
          Key key = new Key(rule, sides.getOrDefault(rule, Side.NONE));
          holding.computeIfAbsent(key, unknown -> new ArrayList<>()).add(number);
        }
        number++;
      }
    }
    return holding.entrySet().stream()
        .map(e -> new InsideSignal(e.getKey().rule(), e.getKey().side(), e.getValue()))
        .toList();
  }
}
