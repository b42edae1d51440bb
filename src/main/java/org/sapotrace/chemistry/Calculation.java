package org.sapotrace.chemistry;

import org.sapotrace.measure.MonteCarlo;

/** A calculation from readings to a figure, with its uncertainty by one law or the other. */
public interface Calculation {

  /** The figure with its uncertainty budget, by the propagation of variances (JCGM 100:2008). */
  Determination determine();

  /**
   * The figure by the propagation of distributions (JCGM 101:2008).
   *
   * <p>Readings and tolerances are triangular, purities rectangular, and what is known by its
   * standard uncertainty alone is normal, or Student's t where its degrees of freedom are finite.
   *
   * @param seed the same seed gives the same figures
   */
  MonteCarlo propagate(long seed);
}
