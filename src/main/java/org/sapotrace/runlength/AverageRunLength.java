package org.sapotrace.runlength;

import org.jspecify.annotations.Nullable;

/**
 * The mean number of results until a chart signals, the result that signals included: of a chart
 * just started ("zero state"), from results that are independent and normal.
 *
 * @param shift the distance of their mean from the centre in sigma, 0 for a process in control
 * @param mean at least 1
 * @param method how it was found
 * @param standardError of the mean where it was simulated; null where it is exact
 */
public record AverageRunLength(
    double shift, double mean, RunLengthMethod method, @Nullable Double standardError) {

  private static final double DAYS_PER_YEAR = 365.25;

  /**
   * How many signals there are in a year if one comes after so many results on average: false
   * alarms, if that is the run length in control.
   *
   * @param mean the average run length
   * @param resultsPerDay above 0
   */
  public static double signalsPerYear(double mean, double resultsPerDay) {
    return DAYS_PER_YEAR * resultsPerDay / mean;
  }
}
