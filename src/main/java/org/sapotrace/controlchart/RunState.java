package org.sapotrace.controlchart;

import java.util.EnumSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What the run rules need to know of all results so far: the same few numbers however long the
 * stream. New limits start afresh from {@link #START}.
 *
 * <p>Counts are of results in a row up to the last one. In a mask, bit 0 stands for the last
 * result, bit 1 for the one before it, and so on.
 *
 * @param count how many results, at least 0
 * @param last the last result; 0 before the first
 * @param beyond 1 with the last result beyond the upper control limit, -1 beyond the lower, else 0
 * @param sameSide results in a row above the centre line, or below it and then negative
 * @param moves moves up in a row, or down and then negative; 0 after a tie
 * @param turns moves in a row, each of them in the opposite direction to the one before; 0 after a
 *     tie
 * @param within1 results in a row within 1 sigma
 * @param above1 mask of the last eight: beyond 1 sigma above the centre
 * @param below1 mask of the last eight: beyond 1 sigma below it
 * @param above2 mask of the last eight: beyond 2 sigma above the centre
 * @param below2 mask of the last eight: beyond 2 sigma below it
 */
public record RunState(
    int count,
    double last,
    int beyond,
    int sameSide,
    int moves,
    int turns,
    int within1,
    int above1,
    int below1,
    int above2,
    int below2) {

  /** Before the first result under the limits in force. */
  public static final RunState START = new RunState(0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0);

  private static final int EIGHT_BITS = 0xFF;

  /**
   * Checks a state that was stored.
   *
   * @throws IllegalArgumentException if numbers are out of range or contradict each other
   */
  public RunState {
    boolean counts =
        isUpTo(1, beyond)
            && isUpTo(count, sameSide)
            && isUpTo(count, moves)
            && isUpTo(count, turns)
            && turns >= 0
            && isUpTo(count, within1)
            && within1 >= 0;
    // Beyond 2 is beyond 1, and no result is on both sides.
    boolean masks =
        (above1 & EIGHT_BITS) == above1
            && (below1 & EIGHT_BITS) == below1
            && (above1 & below1) == 0
            && (above2 & above1) == above2
            && (below2 & below1) == below2;
    if (!(Double.isFinite(last) && counts && masks)) {
      throw new IllegalArgumentException(
          "These numbers are not the state of a run of results. Evaluate the stream again from its"
              + " first result.");
    }
  }

  /**
   * The state after one more result.
   *
   * @param x the result, finite, in the unit of the limits
   * @param limits the limits in force for this result: of means, those of its own size
   * @throws IllegalArgumentException if the result is not finite
   */
  public RunState next(double x, ControlLimits limits) {
    if (!Double.isFinite(x)) {
      throw new IllegalArgumentException(
          "A control chart takes finite numbers only, not " + x + ".");
    }
    int direction = count == 0 ? 0 : outside(x, last, last);
    boolean isAbove1 = x > limits.above(1);
    boolean isBelow1 = x < limits.floor(1);
    return new RunState(
        count + 1,
        x,
        outside(x, limits.floor(3), limits.above(3)),
        longer(sameSide, outside(x, limits.centre(), limits.centre())),
        longer(moves, direction),
        turnsAfter(direction),
        x > limits.floor(1) && x < limits.above(1) ? within1 + 1 : 0,
        shift(above1, isAbove1),
        shift(below1, isBelow1),
        shift(above2, x > limits.above(2)),
        shift(below2, x < limits.floor(2)));
  }

  /**
   * Those of the rules in use whose condition holds at the last result, in their declared order.
   */
  public Set<RunRule> holding(Set<RunRule> rules) {
    EnumSet<RunRule> holding = EnumSet.noneOf(RunRule.class);
    for (RunRule rule : rules) {
      if (rule.sideAt(this) != null) {
        holding.add(rule);
      }
    }
    return holding;
  }

  /** The side on which the rule holds at the last result; null where it does not hold. */
  public @Nullable Side side(RunRule rule) {
    return rule.sideAt(this);
  }

  private static boolean isUpTo(int most, int signed) {
    return -most <= signed && signed <= most;
  }

  private int turnsAfter(int direction) {
    if (direction == 0) {
      return 0;
    }
    return direction * Integer.signum(moves) < 0 ? turns + 1 : 1;
  }

  /** 1 above the upper bound, -1 below the lower, 0 between them or on either. */
  private static int outside(double x, double lower, double upper) {
    if (x > upper) {
      return 1;
    }
    return x < lower ? -1 : 0;
  }

  /** A signed counter, continued by the same sign, started anew by the other, ended by 0. */
  private static int longer(int signedLength, int sign) {
    return Integer.signum(signedLength) == sign ? signedLength + sign : sign;
  }

  private static int shift(int mask, boolean bit) {
    return (mask << 1 | (bit ? 1 : 0)) & EIGHT_BITS;
  }
}
