package org.sapotrace.forecast;

import org.sapotrace.washmodel.WashScheme;

/**
 * How a water wash is built.
 *
 * @param stages that it has, 1 to 100
 */
public record WashPlan(int stages, WashScheme scheme) {

  /** The wash taken as one stage, to be followed by others with fresh water each. */
  public static final WashPlan ONE_STAGE = new WashPlan(1, WashScheme.CROSS_FLOW);

  private static final int MOST = 100;

  /** Refuses another number of stages with {@link IllegalArgumentException}. */
  public WashPlan {
    if (!(stages >= 1 && stages <= MOST)) {
      throw new IllegalArgumentException(
          "A wash has 1 to %d stages: check stages.".formatted(MOST));
    }
  }

  WashPlan by(WashScheme other) {
    return new WashPlan(stages, other);
  }
}
