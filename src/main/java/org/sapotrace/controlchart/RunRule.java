package org.sapotrace.controlchart;

/** Placeholder order only; see the evaluation for each condition. */
public enum RunRule {
  BEYOND_LIMITS("beyond-limits"),
  TWO_OF_THREE_BEYOND_2S("two-of-three-beyond-2s"),
  FOUR_OF_FIVE_BEYOND_1S("four-of-five-beyond-1s"),
  EIGHT_SAME_SIDE("eight-same-side"),
  NINE_SAME_SIDE("nine-same-side"),
  SIX_TRENDING("six-trending"),
  FOURTEEN_ALTERNATING("fourteen-alternating"),
  FIFTEEN_WITHIN_1S("fifteen-within-1s"),
  EIGHT_OUTSIDE_1S("eight-outside-1s");

  private final String id;

  RunRule(String id) {
    this.id = id;
  }

  /** The rule's name in the interface, such as {@code beyond-limits}. */
  public String id() {
    return id;
  }
}
