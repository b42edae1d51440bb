package org.sapotrace.capability;

import org.hipparchus.analysis.integration.gauss.GaussIntegratorFactory;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.distribution.continuous.ChiSquaredDistribution;
import org.hipparchus.special.Erf;
import org.hipparchus.special.Gamma;

/**
 * The noncentral distribution of Student: of T = (Z + delta)/W, with Z unit normal and W the
 * standard deviation of a unit normal sample, W² = χ²/ν with ν degrees of freedom.
 *
 * <p>P(T ≤ t) = ∫ Φ(t w - delta) f(w) dw over w &gt; 0, f(w) = 2 ν w f_χ²(ν w²) the density of W.
 * The first factor rises from 0 to 1 within nine standard deviations on either side of w = delta/t;
 * there the integral is taken numerically, and behind it the rest is P(W &gt; w). The absolute
 * error is below 1e-12. Definition: N. L. Johnson, S. Kotz, N. Balakrishnan, Continuous Univariate
 * Distributions, volume 2, 2nd edition, Wiley 1995, chapter 31.
 *
 * @param degreesOfFreedom ν, at least 1, finite
 */
record NoncentralT(double degreesOfFreedom) {

  private static final GaussIntegratorFactory QUADRATURE = new GaussIntegratorFactory();
  private static final int NODES = 160;

  /** Beyond so many standard deviations lies less than 1e-18 of a normal distribution. */
  private static final double FAR = 9;

  private static final double SQRT_2 = Math.sqrt(2);

  NoncentralT {
    if (!(degreesOfFreedom >= 1 && Double.isFinite(degreesOfFreedom))) {
      throw new IllegalArgumentException("Degrees of freedom are at least 1 and finite.");
    }
  }

  /**
   * P(T ≤ t).
   *
   * @param t finite
   * @param delta the noncentrality, finite
   */
  double cumulativeProbability(double t, double delta) {
    if (t == 0) {
      return Erf.erfc(delta / SQRT_2) / 2;
    }
    return t < 0 ? 1 - above0(-t, -delta) : above0(t, delta);
  }

  private double above0(double t, double delta) {
    double spread = FAR / Math.sqrt(degreesOfFreedom);
    double from = Math.max(Math.max(0, 1 - spread), (delta - FAR) / t);
    double to = Math.min(1 + spread, (delta + FAR) / t);
    double rising =
        from < to
            ? QUADRATURE
                .legendre(NODES, from, to)
                .integrate(w -> Erf.erfc((delta - t * w) / SQRT_2) / 2 * density(w))
            : 0;
    return rising + probabilityAbove(Math.max(0, (delta + FAR) / t));
  }

  private double density(double w) {
    double nu = degreesOfFreedom;
    return 2 * nu * w * new ChiSquaredDistribution(nu).density(nu * w * w);
  }

  private double probabilityAbove(double w) {
    return Gamma.regularizedGammaQ(degreesOfFreedom / 2, degreesOfFreedom * w * w / 2);
  }

  /**
   * The noncentrality under which T stays at or below t with probability p.
   *
   * @param t finite
   * @param p between 0 and 1, both exclusive, and no nearer to them than 1e-9
   */
  double noncentrality(double t, double p) {
    // By the normal approximation of T the root lies within a few of these.
    double width = FAR * Math.sqrt(1 + t * t / (2 * degreesOfFreedom));
    return new BracketingNthOrderBrentSolver(1e-12, 1e-12, 5)
        .solve(200, delta -> cumulativeProbability(t, delta) - p, t - width, t + width);
  }
}
