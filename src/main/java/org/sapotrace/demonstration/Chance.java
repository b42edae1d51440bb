package org.sapotrace.demonstration;

import java.util.SplittableRandom;

/**
 * Chance that falls the same way every time. Each purpose has its own, so that one more stream
 * changes nothing about the others.
 */
final class Chance {

  private static final long SEED = 2026;

  private final SplittableRandom random;

  Chance(String purpose) {
    random = new SplittableRandom(SEED * 31 + purpose.hashCode());
  }

  /**
   * A factor about 1.
   *
   * @param sigma the standard deviation of its logarithm
   */
  double factor(double sigma) {
    return Math.exp(sigma * normal());
  }

  /**
   * A standard normal deviate: sqrt(-2 ln u) cos(2 pi v), u from (0, 1], v from [0, 1) (Box and
   * Muller, Ann. Math. Statist. 29 (1958) 610). Strictly, as the same digits are wanted everywhere.
   */
  double normal() {
    double u = 1 - random.nextDouble();
    double v = random.nextDouble();
    return Math.sqrt(-2 * StrictMath.log(u)) * StrictMath.cos(2 * Math.PI * v);
  }
}
