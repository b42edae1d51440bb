package org.sapotrace.washmodel;

import java.util.List;
import java.util.function.DoubleUnaryOperator;
import java.util.function.Function;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealVector;
import org.hipparchus.linear.SingularValueDecomposition;
import org.sapotrace.measure.WeightedLine.Interval;
import org.sapotrace.washmodel.WeightedPoints.Curve;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * The best curve of a family with p parameters through n points, weighed by that curve itself.
 *
 * <p>How widely points scatter, s² = S/(n - p), is told by the n above detection alone, though all
 * of them lie upon the curve: those below it say little, and many of them would make any curve look
 * sure of itself.
 *
 * <p>Standard errors are those of s² (J'J)⁻¹, of a function of the parameters by its gradient. The
 * points allow a curve whose S is at most t² s² above the least, with Student's t for 95 %. The
 * interval of a quantity holds all values of which the points allow a curve (its profile). Source:
 * D. M. Bates, D. G. Watts, Nonlinear Regression Analysis and Its Applications (1988), 6.1 (from
 * memory).
 */
final class CurveFit {

  private static final int MOST_ROUNDS = 50;
  private static final double SETTLED = 1e-8;
  private static final int MOST_DOUBLINGS = 40;
  private static final double ACCURACY = 1e-7;
  private static final int MAX_EVALUATIONS = 200;

  private final WeightedPoints weighted;
  private final Curve curve;
  private final double variance;
  private final double allowed;

  /**
   * Fits a curve.
   *
   * @param points more of them above detection than p
   * @param start the curve to begin with
   * @param estimated p, of which some may have turned out to be at a bound
   */
  CurveFit(List<Point> points, Curve start, int estimated) {
    WeightedPoints weighed = WeightedPoints.by(start, points);
    Curve best = weighed.best(start);
    WeightedPoints again = WeightedPoints.by(best, points);
    for (int i = 0; i < MOST_ROUNDS && weighed.differsFrom(again) > SETTLED; i++) {
      weighed = again;
      best = weighed.best(best);
      again = WeightedPoints.by(best, points);
    }
    weighted = weighed;
    curve = best;
    WeightedPoints detected = weighted.detected();
    int degreesOfFreedom = detected.points().size() - estimated;
    variance = detected.sumOfSquares(curve) / degreesOfFreedom;
    double factor = Coverage.factor(degreesOfFreedom);
    allowed = weighted.sumOfSquares(curve) + factor * factor * variance;
  }

  Curve curve() {
    return curve;
  }

  /** The value of a function of the parameters. */
  double value(Function<Gradient[], Gradient> function) {
    return function.apply(curve.variables()).getValue();
  }

  /** Its standard error. */
  double standardError(Function<Gradient[], Gradient> function) {
    RealVector slope = new ArrayRealVector(function.apply(curve.variables()).getGradient());
    RealVector spread =
        new SingularValueDecomposition(weighted.information(curve)).getSolver().solve(slope);
    return Math.sqrt(variance * slope.dotProduct(spread));
  }

  /** Both, named. */
  Forecast.Parameter parameter(String name, String unit, Function<Gradient[], Gradient> function) {
    return new Forecast.Parameter(name, value(function), standardError(function), unit);
  }

  /** The best curve of a family, looked for from one of them on. */
  Curve best(Curve start) {
    return weighted.best(start);
  }

  /** By how much S is above what is allowed; at most 0 where the points allow a curve. */
  double excess(Curve best) {
    return weighted.sumOfSquares(best) - allowed;
  }

  /** Whether the points allow some curve of a family, looked for from one of them on. */
  boolean allows(Curve start) {
    return !(excess(best(start)) > 0);
  }

  /**
   * The interval of a quantity.
   *
   * @param estimate of it
   * @param step its standard error, above 0
   * @param least below which its values do not count, so that the interval ends there
   * @param excess of the best curve that has a value of it
   */
  Interval interval(double estimate, double step, double least, DoubleUnaryOperator excess) {
    double inside = Math.max(estimate, least);
    if (excess.applyAsDouble(inside) > 0) {
      return new Interval(least, least);
    }
    return new Interval(
        end(inside, -step, least, excess), end(inside, step, Double.POSITIVE_INFINITY, excess));
  }

  /** From a value inside on, by steps that double, at most to the last. */
  private static double end(double inside, double step, double last, DoubleUnaryOperator excess) {
    double within = inside;
    double width = step;
    for (int i = 0; i < MOST_DOUBLINGS && within != last; i++) {
      double beyond = step < 0 ? Math.max(last, within + width) : within + width;
      if (excess.applyAsDouble(beyond) > 0) {
        return new BracketingNthOrderBrentSolver(ACCURACY, ACCURACY * Math.abs(step), 5)
            .solve(
                MAX_EVALUATIONS,
                excess::applyAsDouble,
                Math.min(within, beyond),
                Math.max(within, beyond));
      }
      within = beyond;
      width *= 2;
    }
    return last;
  }
}
