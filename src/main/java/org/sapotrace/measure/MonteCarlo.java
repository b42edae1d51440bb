package org.sapotrace.measure;

import java.util.Arrays;
import java.util.Optional;
import java.util.SplittableRandom;
import java.util.function.ToDoubleFunction;
import org.hipparchus.stat.descriptive.StreamingStatistics;

/**
 * A result by the propagation of distributions: JCGM 101:2008.
 *
 * @param value the mean of all trials
 * @param standardUncertainty their standard deviation
 * @param lower the lower end of the probabilistically symmetric 95 % coverage interval (7.7)
 * @param upper its upper end
 * @param trials how many trials were drawn
 * @param isStable whether these four figures have settled (7.9) to within 1 % of half the interval
 */
public record MonteCarlo(
    double value,
    double standardUncertainty,
    double lower,
    double upper,
    int trials,
    boolean isStable) {

  private static final int BLOCK = 10_000;
  private static final double COVERAGE = 0.95;

  // So that no request takes long; figures that have a mean and a spread settle long before.
  private static final int MOST_TRIALS = 500_000;

  // Beyond this share of the expanded uncertainty the two laws are said to disagree. To tell that,
  // the figures must be known to a fifth of it (8.2).
  private static final double NOTABLE = 0.05;
  private static final double TOLERANCE = NOTABLE / 5;

  /**
   * Draws trials until the figures are stable, at most half a million of them.
   *
   * @param model one trial: draws every input and answers the result
   * @param seed the same seed gives the same figures
   */
  public static MonteCarlo of(ToDoubleFunction<SplittableRandom> model, long seed) {
    return of(model, seed, MOST_TRIALS);
  }

  /**
   * Draws trials until the figures are stable: the adaptive procedure of JCGM 101:2008, 7.9.4, in
   * blocks of 10 000. The numerical tolerance is 1 % of half the coverage interval, about 2 % of
   * the standard uncertainty: a tolerance by significant digits (7.9.2) asks for ten times as many
   * trials, or for a hundredth of them, by the leading digit alone.
   *
   * @param model one trial: draws every input and answers the result
   * @param seed the same seed gives the same figures
   * @param most how many trials there may be at most; two blocks are drawn in any case, and no more
   *     than half a million
   */
  public static MonteCarlo of(ToDoubleFunction<SplittableRandom> model, long seed, int most) {
    int mostBlocks = Math.max(2, Math.min(most, MOST_TRIALS) / BLOCK);
    SplittableRandom random = new SplittableRandom(seed);
    double[] all = new double[0];
    StreamingStatistics[] spread = new StreamingStatistics[4];
    Arrays.setAll(spread, i -> new StreamingStatistics());
    boolean isStable = false;
    for (int blocks = 1; blocks <= mostBlocks && !isStable; blocks++) {
      double[] block = new double[BLOCK];
      Arrays.setAll(block, i -> model.applyAsDouble(random));
      double[] figures = of(block, false).figures();
      for (int i = 0; i < figures.length; i++) {
        spread[i].addValue(figures[i]);
      }
      all = Arrays.copyOf(all, blocks * BLOCK);
      System.arraycopy(block, 0, all, (blocks - 1) * BLOCK, BLOCK);
      isStable = blocks > 1 && isStable(spread);
    }
    return of(all, isStable);
  }

  /** Twice the standard deviation of each figure's mean over the blocks is within the tolerance. */
  private static boolean isStable(StreamingStatistics[] spread) {
    double tolerance = TOLERANCE * (spread[3].getMean() - spread[2].getMean()) / 2;
    return Arrays.stream(spread)
        .allMatch(
            each -> 2 * each.getStandardDeviation() / Math.sqrt((double) each.getN()) <= tolerance);
  }

  private static MonteCarlo of(double[] drawn, boolean isStable) {
    StreamingStatistics moments = new StreamingStatistics();
    for (double each : drawn) {
      moments.addValue(each);
    }
    Arrays.sort(drawn);
    // The interval from the r-th to the (r + q)-th least of all, with q = 0.95 M and r = (M - q)/2
    // (7.7.2), where the least is the first.
    int q = (int) Math.round(COVERAGE * drawn.length);
    int r = (drawn.length - q) / 2;
    return new MonteCarlo(
        moments.getMean(),
        moments.getStandardDeviation(),
        drawn[r - 1],
        drawn[r + q - 1],
        drawn.length,
        isStable);
  }

  private double[] figures() {
    return new double[] {value, standardUncertainty, lower, upper};
  }

  /**
   * How far the coverage interval y - U to y + U of a budget is from this one: the larger of the
   * distances of their ends (JCGM 101:2008, 8.1), as a share of U. 0 where U is 0.
   *
   * @param y the result the budget belongs to
   */
  public double distanceFrom(double y, Budget budget) {
    double expanded = budget.expandedUncertainty();
    double distance = Math.max(Math.abs(y - expanded - lower), Math.abs(y + expanded - upper));
    return expanded == 0 ? 0 : distance / expanded;
  }

  /**
   * Whether that distance is more than 5 %, so that the budget's interval is not to be relied on.
   */
  public boolean disagreesWith(double y, Budget budget) {
    return !(distanceFrom(y, budget) <= NOTABLE);
  }

  /** That in words, for people who read the budget; empty where the two laws agree. */
  public Optional<String> caution(double y, Budget budget) {
    if (!disagreesWith(y, budget)) {
      return Optional.empty();
    }
    return Optional.of(
        "The uncertainty budget and the propagation of distributions disagree by more than 5 % of the expanded uncertainty: rely on the interval from "
            + Rounding.of(lower)
            + " to "
            + Rounding.of(upper)
            + ".");
  }
}
