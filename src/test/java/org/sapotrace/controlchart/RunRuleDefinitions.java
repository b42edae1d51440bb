package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.function.DoublePredicate;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;

/**
 * The run rules read off their definitions, by looking at the whole window before each result
 * again: what the streaming evaluation must agree with.
 */
final class RunRuleDefinitions {

  private final double[] values;
  private final ControlLimits limits;

  RunRuleDefinitions(double[] values, ControlLimits limits) {
    this.values = values;
    this.limits = limits;
  }

  /** The side on which the rule holds at an index, counted from 0; null where it does not. */
  @Nullable Side side(RunRule rule, int at) {
    return switch (rule) {
      case BEYOND_LIMITS -> several(at, 1, 1, 3);
      case TWO_OF_THREE_BEYOND_2S -> several(at, 2, 3, 2);
      case FOUR_OF_FIVE_BEYOND_1S -> several(at, 4, 5, 1);
      case EIGHT_SAME_SIDE -> sameSide(at, 8);
      case NINE_SAME_SIDE -> sameSide(at, 9);
      case SIX_TRENDING -> trending(at);
      case FOURTEEN_ALTERNATING -> alternating(at) ? Side.NONE : null;
      case FIFTEEN_WITHIN_1S -> all(at, 15, x -> isWithin(x)) ? Side.NONE : null;
      case EIGHT_OUTSIDE_1S -> outside(at) ? Side.NONE : null;
    };
  }

  private boolean isAbove(double x, int k) {
    return x > limits.centre() + k * limits.sigma();
  }

  private boolean isBelow(double x, int k) {
    double boundary = limits.centre() - k * limits.sigma();
    return !(limits.nonNegative() && boundary <= 0) && x < boundary;
  }

  private boolean isWithin(double x) {
    double boundary = limits.centre() - limits.sigma();
    boolean aboveLower = limits.nonNegative() && boundary <= 0 || x > boundary;
    return aboveLower && x < limits.centre() + limits.sigma();
  }

  private @Nullable Side several(int at, int wanted, int window, int k) {
    double[] last = Arrays.copyOfRange(values, Math.max(0, at - window + 1), at + 1);
    if (isAbove(values[at], k)
        && Arrays.stream(last).filter(x -> isAbove(x, k)).count() >= wanted) {
      return Side.HIGH;
    }
    boolean low =
        isBelow(values[at], k) && Arrays.stream(last).filter(x -> isBelow(x, k)).count() >= wanted;
    return low ? Side.LOW : null;
  }

  private boolean all(int at, int window, DoublePredicate condition) {
    return at + 1 >= window && Arrays.stream(values, at - window + 1, at + 1).allMatch(condition);
  }

  private @Nullable Side sameSide(int at, int window) {
    if (all(at, window, x -> x > limits.centre())) {
      return Side.HIGH;
    }
    return all(at, window, x -> x < limits.centre()) ? Side.LOW : null;
  }

  /** Whether a condition holds for each of the last moves, named by the index that it leads to. */
  private static boolean moves(int at, int moves, IntPredicate condition) {
    return at >= moves && IntStream.rangeClosed(at - moves + 1, at).allMatch(condition);
  }

  private @Nullable Side trending(int at) {
    if (moves(at, 5, i -> values[i] > values[i - 1])) {
      return Side.HIGH;
    }
    return moves(at, 5, i -> values[i] < values[i - 1]) ? Side.LOW : null;
  }

  private boolean alternating(int at) {
    return moves(at, 13, i -> i % 2 == 0 ? values[i] > values[i - 1] : values[i] < values[i - 1])
        || moves(at, 13, i -> i % 2 == 0 ? values[i] < values[i - 1] : values[i] > values[i - 1]);
  }

  private boolean outside(int at) {
    return all(at, 8, x -> isAbove(x, 1) || isBelow(x, 1))
        && !all(at, 8, x -> isAbove(x, 1))
        && !all(at, 8, x -> isBelow(x, 1));
  }
}
