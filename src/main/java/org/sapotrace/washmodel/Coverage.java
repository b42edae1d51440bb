package org.sapotrace.washmodel;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/** The coverage of all intervals here, 95 %. */
final class Coverage {

  private static final double UPPER_PROBABILITY = 0.975;

  /** Half an interval in standard errors that are known, which is a normal quantile. */
  static final double NORMAL =
      new NormalDistribution().inverseCumulativeProbability(UPPER_PROBABILITY);

  private Coverage() {}

  /** Half an interval in standard errors: Student's t, for at least one degree of freedom. */
  static double factor(int degreesOfFreedom) {
    return new TDistribution(degreesOfFreedom).inverseCumulativeProbability(UPPER_PROBABILITY);
  }
}
