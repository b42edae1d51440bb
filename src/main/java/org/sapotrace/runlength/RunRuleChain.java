package org.sapotrace.runlength;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.RunState;

/**
 * Run rules as a Markov chain: its states are what the rules in use remember of the results so far,
 * its moves the eight zones that lines at 0, 1, 2 and 3 sigma make on both sides of the centre. The
 * states are found by putting a result in each zone to each state, as the chart itself would.
 *
 * <p>Source: C. W. Champ, W. H. Woodall, Exact results for Shewhart control charts with
 * supplementary runs rules, Technometrics 29 (1987) 393, doi:10.1080/00401706.1987.10488266.
 */
final class RunRuleChain implements MeanRunLength {

  private static final int SIGNAL = -1;
  private static final ControlLimits LIMITS = new ControlLimits(0, 1, false);
  // Those whose memory Memory knows.
  private static final Set<RunRule> HELD =
      EnumSet.of(
          RunRule.BEYOND_LIMITS,
          RunRule.TWO_OF_THREE_BEYOND_2S,
          RunRule.FOUR_OF_FIVE_BEYOND_1S,
          RunRule.EIGHT_SAME_SIDE,
          RunRule.NINE_SAME_SIDE,
          RunRule.FIFTEEN_WITHIN_1S,
          RunRule.EIGHT_OUTSIDE_1S);
  // A result in the middle of each zone, and the line below each zone.
  private static final double[] RESULTS = {-3.5, -2.5, -1.5, -0.5, 0.5, 1.5, 2.5, 3.5};
  private static final double[] LINES = {
    Double.NEGATIVE_INFINITY, -3, -2, -1, 0, 1, 2, 3, Double.POSITIVE_INFINITY
  };

  // More results than any rule looks at.
  private static final int LONG_AGO = 15;
  // Settled: a share that has not changed, but for rounding, over so many results in a row.
  private static final int SETTLED = 2 * LONG_AGO;
  private static final double NO_CHANGE = 1e-13;
  private static final double NONE_LEFT = 1e-18;

  private final int[][] moves;

  private RunRuleChain(int[][] moves) {
    this.moves = moves;
  }

  /** Whether these rules can be held; the others remember the last result itself. */
  static boolean holds(Set<RunRule> rules) {
    return HELD.containsAll(rules);
  }

  /**
   * The chain of these rules.
   *
   * @param rules of which it {@link #holds}
   */
  static RunRuleChain of(Set<RunRule> rules) {
    Memory memory = new Memory(rules);
    List<RunState> states = new ArrayList<>(List.of(memory.of(RunState.START)));
    Map<RunState, Integer> numbers = new HashMap<>(Map.of(states.get(0), 0));
    List<int[]> moves = new ArrayList<>();
    for (int i = 0; i < states.size(); i++) {
      RunState state = states.get(i);
      moves.add(
          Arrays.stream(RESULTS)
              .mapToObj(x -> state.next(x, LIMITS))
              .mapToInt(
                  next -> {
                    if (!next.holding(rules).isEmpty()) {
                      return SIGNAL;
                    }
                    RunState kept = memory.of(next);
                    Integer number = numbers.putIfAbsent(kept, states.size());
                    if (number == null) {
                      states.add(kept);
                    }
                    return numbers.get(kept);
                  })
              .toArray());
    }
    return new RunRuleChain(moves.toArray(new int[0][]));
  }

  /**
   * The state that each zone leads to from each state, or -1 for a signal; state 0 is the start.
   */
  int[][] moves() {
    return moves;
  }

  @Override
  public double[] at(double... shifts) {
    return Arrays.stream(shifts).map(this::at).toArray();
  }

  /**
   * The probability of no signal within i results, summed over all i from 0. Once the streams
   * without a signal have settled, the same share of them signals at each result, and what remains
   * is a geometric series.
   */
  private double at(double shift) {
    double[] zones = zones(shift);
    double[] quiet = new double[moves.length];
    quiet[0] = 1;
    double all = 1;
    double mean = 0;
    double share = 0;
    for (int settled = 0; settled < SETTLED && all > NONE_LEFT * mean; ) {
      mean += all;
      double[] next = new double[quiet.length];
      double signalling = step(quiet, zones, next) / all;
      settled = Math.abs(signalling - share) <= NO_CHANGE * share ? settled + 1 : 0;
      share = signalling;
      quiet = next;
      all = Arrays.stream(quiet).sum();
    }
    return all > NONE_LEFT * mean ? mean + all / share : mean;
  }

  /** Moves streams without a signal on by one result; answers how many of them signal. */
  private double step(double[] quiet, double[] zones, double[] next) {
    double signals = 0;
    for (int i = 0; i < quiet.length; i++) {
      for (int zone = 0; zone < zones.length; zone++) {
        double moving = quiet[i] * zones[zone];
        if (moves[i][zone] == SIGNAL) {
          signals += moving;
        } else {
          next[moves[i][zone]] += moving;
        }
      }
    }
    return signals;
  }

  /** The probability of a result in each zone, the lowest first. */
  static double[] zones(double shift) {
    double[] zones = new double[RESULTS.length];
    for (int i = 0; i < zones.length; i++) {
      double from = LINES[i] - shift;
      double to = LINES[i + 1] - shift;
      // In the tail in which the difference loses no digits.
      zones[i] =
          from > 0
              ? Landing.normal(-from) - Landing.normal(-to)
              : Landing.normal(to) - Landing.normal(from);
    }
    return zones;
  }

  /** What rules in use can still see of a state. */
  private static final class Memory {

    private final boolean sides;
    private final boolean within;
    private final boolean outside;
    private final int last1;
    private final int last2;

    Memory(Set<RunRule> rules) {
      sides = rules.contains(RunRule.EIGHT_SAME_SIDE) || rules.contains(RunRule.NINE_SAME_SIDE);
      within = rules.contains(RunRule.FIFTEEN_WITHIN_1S);
      outside = rules.contains(RunRule.EIGHT_OUTSIDE_1S);
      last1 = rules.contains(RunRule.FOUR_OF_FIVE_BEYOND_1S) ? 0b1111 : 0;
      last2 = rules.contains(RunRule.TWO_OF_THREE_BEYOND_2S) ? 0b11 : 0;
    }

    RunState of(RunState state) {
      int above2 = state.above2() & last2;
      int below2 = state.below2() & last2;
      int seen1 = last1 | (outside ? unbroken(state.above1() | state.below1()) : 0);
      return new RunState(
          LONG_AGO,
          0,
          0,
          sides ? state.sameSide() : 0,
          0,
          0,
          within ? state.within1() : 0,
          (state.above1() & seen1) | above2,
          (state.below1() & seen1) | below2,
          above2,
          below2);
    }

    /** The mask of those in a row up to the last one; of eight in a row the first drops out. */
    private static int unbroken(int mask) {
      return (1 << Math.min(7, Integer.numberOfTrailingZeros(~mask))) - 1;
    }
  }
}
