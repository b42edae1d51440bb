package org.sapotrace.baseline;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.RunState;
import org.sapotrace.controlchart.Side;

/**
 * A run rule that holds inside the baseline, under the limits taken from it: a sign that the
 * process was not in control while they were gathered.
 *
 * @param side on which side of the centre, or which way
 * @param results the numbers of the results at which the rule holds, counting from 0; at least one
 */
public record InsideSignal(RunRule rule, Side side, List<Integer> results) {

  public InsideSignal {
    results = List.copyOf(results);
  }

  /**
   * All rules that hold inside, in the order in which each first does. Runs start afresh behind a
   * gap.
   *
   * @param plotted the baseline as it is plotted
   * @param limits in the same unit
   */
  public static List<InsideSignal> of(Baseline plotted, ControlLimits limits, Set<RunRule> rules) {
    record Key(RunRule rule, Side side) {}
    Map<Key, List<Integer>> holding = new LinkedHashMap<>();
    int number = 0;
    for (double[] stretch : plotted.stretches()) {
      RunState state = RunState.START;
      for (double x : stretch) {
        state = state.next(x, limits);
        for (RunRule rule : state.holding(rules)) {
          @Nullable Side side = state.side(rule);
          if (side != null) {
            holding.computeIfAbsent(new Key(rule, side), key -> new ArrayList<>()).add(number);
          }
        }
        number++;
      }
    }
    return holding.entrySet().stream()
        .map(
            entry ->
                new InsideSignal(entry.getKey().rule(), entry.getKey().side(), entry.getValue()))
        .toList();
  }
}
