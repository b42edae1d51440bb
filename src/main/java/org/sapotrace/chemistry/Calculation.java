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
   * @param most how many trials there may be at most, where the figures do not settle before
   */
  MonteCarlo propagate(long seed, int most);

  /** The figure by the propagation of distributions, with as many trials as it needs to settle. */
  default MonteCarlo propagate(long seed) {
    return propagate(seed, Integer.MAX_VALUE);
  }

  /**
   * Whether the propagation of variances may come to a notably other interval than that of
   * distributions, so that only the latter can tell. Otherwise they agree to within 5 % of the
   * expanded uncertainty.
   */
  boolean needsDistributions();
}
