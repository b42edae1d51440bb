package org.sapotrace.runlength;

/** The mean number of results until a chart signals, computed exactly. */
interface MeanRunLength {

  /**
   * The mean number of results from the first one under the limits to the one that signals, itself
   * counted, while all results are independent and normal.
   *
   * @param shifts distances of their mean from the centre, in sigma
   * @return one number for each of them
   */
  double[] at(double... shifts);
}
