package org.sapotrace.washmodel;

import org.hipparchus.distribution.continuous.TDistribution;

/** The coverage of all intervals here, 95 %. */
final class Coverage {

  private static final double UPPER_PROBABILITY = 0.975;

  private Coverage() {}

  /** Half an interval in standard errors: Student's t, for at least one degree of freedom. */
  static double factor(int degreesOfFreedom) {
    return new TDistribution(degreesOfFreedom).inverseCumulativeProbability(UPPER_PROBABILITY);
  }
}
