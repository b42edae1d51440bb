package org.sapotrace.runlength;

import org.hipparchus.special.Erf;

/**
 * Where the next result takes the statistic of a chart: to a normally distributed place, at which
 * the chart does not signal as long as it lies between two bounds.
 *
 * @param mean of the place
 * @param deviation its standard deviation, above 0
 * @param from the lower bound
 * @param to the upper bound
 */
record Landing(double mean, double deviation, double from, double to) {

  /** The probability density of landing here. */
  double density(double y) {
    double x = (y - mean) / deviation;
    return Math.exp(-x * x / 2) / (deviation * Math.sqrt(2 * Math.PI));
  }

  /** The probability of landing below the lower bound. */
  double below() {
    return normal((from - mean) / deviation);
  }

  /** The probability of landing above the upper bound. */
  double above() {
    return normal((mean - to) / deviation);
  }

  /** The normal distribution function Φ(x); far below 0 its relative error stays small. */
  static double normal(double x) {
    return Erf.erfc(-x / Math.sqrt(2)) / 2;
  }
}
