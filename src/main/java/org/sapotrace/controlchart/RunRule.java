package org.sapotrace.controlchart;

/** Placeholder order only; see the evaluation for each condition. */
public enum RunRule {
  BEYOND_LIMITS("beyond-limits", 'L', "one result beyond a control limit"),
  TWO_OF_THREE_BEYOND_2S(
      "two-of-three-beyond-2s", 'T', "two of three beyond 2 standard deviations on one side"),
  FOUR_OF_FIVE_BEYOND_1S(
      "four-of-five-beyond-1s", 'F', "four of five beyond 1 standard deviation on one side"),
  EIGHT_SAME_SIDE("eight-same-side", 'E', "eight in a row on one side of the centre"),
  NINE_SAME_SIDE("nine-same-side", 'N', "nine in a row on one side of the centre"),
  SIX_TRENDING("six-trending", 'R', "six in a row rising or falling"),
  FOURTEEN_ALTERNATING("fourteen-alternating", 'Z', "fourteen in a row alternating up and down"),
  FIFTEEN_WITHIN_1S("fifteen-within-1s", 'W', "fifteen in a row within 1 standard deviation"),
  EIGHT_OUTSIDE_1S("eight-outside-1s", 'O', "eight in a row outside 1 standard deviation");

  private final String id;
  private final char letter;
  private final String description;

  RunRule(String id, char letter, String description) {
    this.id = id;
    this.letter = letter;
    this.description = description;
  }

  /** The rule's name in the interface, such as {@code beyond-limits}. */
  public String id() {
    return id;
  }

  /** The letter that stands beside a signalling result in a picture. */
  public char letter() {
    return letter;
  }

  /** What holds where the rule signals, in words. */
  public String description() {
    return description;
  }
}
