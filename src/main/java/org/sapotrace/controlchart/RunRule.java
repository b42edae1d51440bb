package org.sapotrace.controlchart;

import java.util.Arrays;
import java.util.Collections;
import java.util.EnumSet;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;

/**
 * A pattern of successive results that is unlikely while the process is in control.
 *
 * <p>Distances are in standard deviations (sigma) from the centre line. Every comparison is strict:
 * a result on a line is neither beyond it nor within it, and one on the centre line is on neither
 * side. A rule holds at every result at which its condition holds. A result beyond 3 sigma is also
 * beyond 2 and 1. Where {@link ControlLimits} has no lower boundary, nothing lies beyond it and
 * everything below the centre lies within it.
 *
 * <p>Sources: Western Electric Company, Statistical Quality Control Handbook, 1956, pages 25 to 28;
 * L. S. Nelson, The Shewhart control chart: tests for special causes, Journal of Quality Technology
 * 16 (1984) 237.
 */
public enum RunRule implements SignalRule {
  /** One result beyond 3 sigma. Western Electric 1956; Nelson 1984, test 1. */
  BEYOND_LIMITS("beyond-limits", 'L', 1, "one result beyond a control limit") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return run(state.beyond(), 1);
    }
  },
  /**
   * Two of three in a row beyond 2 sigma on the same side, the last among them; two of the first
   * two suffice. Western Electric 1956; Nelson 1984, test 5.
   */
  TWO_OF_THREE_BEYOND_2S(
      "two-of-three-beyond-2s",
      'T',
      3,
      "two of three results in a row beyond two standard deviations on one side") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return several(2, span(), state.above2(), state.below2());
    }
  },
  /**
   * Four of five in a row beyond 1 sigma on the same side, the last among them; four of the first
   * four suffice. Western Electric 1956; Nelson 1984, test 6.
   */
  FOUR_OF_FIVE_BEYOND_1S(
      "four-of-five-beyond-1s",
      'F',
      5,
      "four of five results in a row beyond one standard deviation on one side") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return several(4, span(), state.above1(), state.below1());
    }
  },
  /** Eight in a row on one side of the centre line. Western Electric 1956. */
  EIGHT_SAME_SIDE(
      "eight-same-side", 'E', 8, "eight results in a row on one side of the centre line") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return run(state.sameSide(), span());
    }
  },
  /** Nine in a row on one side of the centre line. Nelson 1984, test 2. */
  NINE_SAME_SIDE("nine-same-side", 'N', 9, "nine results in a row on one side of the centre line") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return run(state.sameSide(), span());
    }
  },
  /**
   * Six in a row steadily rising or falling: five moves, none of them a tie. Nelson 1984, test 3.
   */
  SIX_TRENDING("six-trending", 'R', 6, "six results in a row, each higher, or each lower") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return run(state.moves(), span() - 1);
    }
  },
  /**
   * Fourteen in a row alternately up and down: thirteen moves, none of them a tie. The centre line
   * plays no part. Nelson 1984, test 4.
   */
  FOURTEEN_ALTERNATING(
      "fourteen-alternating", 'Z', 14, "fourteen results in a row alternating up and down") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return state.turns() >= span() - 1 ? Side.NONE : null;
    }
  },
  /** Fifteen in a row within 1 sigma, on either side. Nelson 1984, test 7. */
  FIFTEEN_WITHIN_1S(
      "fifteen-within-1s",
      'W',
      15,
      "fifteen results in a row within one standard deviation of the centre line") {
    @Override
    @Nullable Side sideAt(RunState state) {
      return state.within1() >= span() ? Side.NONE : null;
    }
  },
  /** Eight in a row outside 1 sigma, at least one of them on each side. Nelson 1984, test 8. */
  EIGHT_OUTSIDE_1S(
      "eight-outside-1s",
      'O',
      8,
      "eight results in a row outside one standard deviation, on both sides") {
    @Override
    @Nullable Side sideAt(RunState state) {
      boolean all = (state.above1() | state.below1()) == (1 << span()) - 1;
      return all && state.above1() != 0 && state.below1() != 0 ? Side.NONE : null;
    }
  };

  /** The rules of Western Electric 1956, in their declared order. */
  public static final Set<RunRule> WESTERN_ELECTRIC_1956 =
      Collections.unmodifiableSet(EnumSet.range(BEYOND_LIMITS, EIGHT_SAME_SIDE));

  /** The eight rules of Nelson 1984, in their declared order. */
  public static final Set<RunRule> NELSON_1984 =
      Collections.unmodifiableSet(EnumSet.complementOf(EnumSet.of(EIGHT_SAME_SIDE)));

  private static final String NAME_OF_WESTERN_ELECTRIC = "western-electric-1956";
  private static final String NAME_OF_NELSON = "nelson-1984";

  private final String id;
  private final char letter;
  private final int span;
  private final String description;

  RunRule(String id, char letter, int span, String description) {
    this.id = id;
    this.letter = letter;
    this.span = span;
    this.description = description;
  }

  @Override
  public String id() {
    return id;
  }

  @Override
  public char letter() {
    return letter;
  }

  /** How many results in a row the rule looks at, from 1 to 15. */
  public int span() {
    return span;
  }

  @Override
  public String description() {
    return description;
  }

  /**
   * The rule with this name in the interface.
   *
   * @throws IllegalArgumentException if there is none
   */
  public static RunRule named(String id) {
    for (RunRule rule : values()) {
      if (rule.id.equals(id)) {
        return rule;
      }
    }
    throw new IllegalArgumentException(
        "There is no run rule \"%s\". Use one of %s, or western-electric-1956 or nelson-1984."
            .formatted(
                id, Arrays.stream(values()).map(RunRule::id).collect(Collectors.joining(", "))));
  }

  /**
   * The rules that a name stands for: a set, {@code western-electric-1956} or {@code nelson-1984},
   * or a single rule.
   *
   * @throws IllegalArgumentException for any other name
   */
  public static Set<RunRule> allNamed(String name) {
    return switch (name) {
      case NAME_OF_WESTERN_ELECTRIC -> WESTERN_ELECTRIC_1956;
      case NAME_OF_NELSON -> NELSON_1984;
      default -> EnumSet.of(named(name));
    };
  }

  /** The name of the set that has exactly these rules; null where none has. */
  public static @Nullable String setName(Set<RunRule> rules) {
    if (rules.equals(WESTERN_ELECTRIC_1956)) {
      return NAME_OF_WESTERN_ELECTRIC;
    }
    return rules.equals(NELSON_1984) ? NAME_OF_NELSON : null;
  }

  /** The side on which the rule holds at the last result; null where it does not hold. */
  abstract @Nullable Side sideAt(RunState state);

  /** The side of a counter that is positive above and negative below, once it has the length. */
  private static @Nullable Side run(int signedLength, int length) {
    if (signedLength >= length) {
      return Side.HIGH;
    }
    return signedLength <= -length ? Side.LOW : null;
  }

  /** The side with the last and at least k of the last m results beyond, in masks. */
  private static @Nullable Side several(int k, int m, int above, int below) {
    if (isLastOf(k, m, above)) {
      return Side.HIGH;
    }
    return isLastOf(k, m, below) ? Side.LOW : null;
  }

  private static boolean isLastOf(int k, int m, int beyond) {
    int window = (1 << m) - 1;
    return (beyond & 1) == 1 && Integer.bitCount(beyond & window) >= k;
  }
}
