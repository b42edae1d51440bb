package org.sapotrace.controlchart;

/**
 * A limit on a statistic that gathers small shifts over many results. Its condition is strict and
 * holds at every result at which the statistic lies beyond the limit; the signal it raises goes on
 * until the statistic is back under half the limit.
 */
public enum DriftRule implements SignalRule {
  /** The exponentially weighted moving average beyond either of its limits; see {@link Ewma}. */
  EWMA_BEYOND_LIMITS("ewma-beyond-limits", 'A', "moving average (EWMA) beyond its limit"),
  /** The upward cumulative sum beyond the decision value; see {@link Cusum}. */
  CUSUM_HIGH("cusum-high", 'U', "upward cumulative sum (CUSUM) beyond its decision value"),
  /** The downward cumulative sum beyond the decision value; see {@link Cusum}. */
  CUSUM_LOW("cusum-low", 'D', "downward cumulative sum (CUSUM) beyond its decision value");

  private final String id;
  private final char letter;
  private final String description;

  DriftRule(String id, char letter, String description) {
    this.id = id;
    this.letter = letter;
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

  @Override
  public String description() {
    return description;
  }
}
