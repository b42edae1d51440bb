package org.sapotrace.washmodel;

import java.util.Arrays;
import java.util.List;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.RealMatrix;
import org.hipparchus.linear.RealVector;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LeastSquaresFactory;
import org.hipparchus.optim.nonlinear.vector.leastsquares.LevenbergMarquardtOptimizer;
import org.hipparchus.util.Pair;

/**
 * Points (x, y) through which curves f(x; p) are laid so that S = Σ ((y - f)/u)² is least, by the
 * method of Levenberg and Marquardt.
 *
 * <p>u² = floor² + (0.1 f)². From batch to batch soap scatters by a part of its size, as it is a
 * product of what went before; close to nothing it scatters as the titration does. Only the ratio
 * of both counts: how widely the points scatter altogether is estimated from them.
 *
 * @param deviations u, one for each point
 */
record WeightedPoints(List<Point> points, RealVector deviations) {

  private static final double RELATIVE = 0.1;
  private static final int MAX_EVALUATIONS = 1000;

  // Where the best lies at infinity, it goes on for ever and gets no better.
  private static final int MOST_ITERATIONS = 100;

  /** A family of curves. */
  @FunctionalInterface
  interface Family {
    Gradient at(double x, Gradient[] parameters);
  }

  /**
   * A curve of a family.
   *
   * @param p its parameters
   */
  record Curve(Family family, RealVector p) {

    Curve(Family family, double... p) {
      this(family, new ArrayRealVector(p));
    }

    double at(double x) {
      return family.at(x, variables()).getValue();
    }

    /** The parameters, each as a function of all of them. */
    Gradient[] variables() {
      Gradient[] variables = new Gradient[p.getDimension()];
      Arrays.setAll(variables, i -> Gradient.variable(p.getDimension(), i, p.getEntry(i)));
      return variables;
    }
  }

  /**
   * A point.
   *
   * @param floor the standard deviation of y where the curve is at 0, above 0
   * @param isDetected whether it lies above the limit of detection
   */
  record Point(double x, double y, double floor, boolean isDetected) {

    /** The limit of detection is 3.3 standard deviations of what is found in nothing. */
    private static final double DETECTION_FACTOR = 3.3;

    /** A point by its limit of detection, above 0. */
    static Point of(double x, double y, double detection) {
      return new Point(x, y, detection / DETECTION_FACTOR, y > detection);
    }

    double deviation(double level) {
      return Math.hypot(floor, RELATIVE * level);
    }
  }

  /** Points weighed as they lie. */
  static WeightedPoints asTheyLie(List<Point> points) {
    return of(points, points.stream().mapToDouble(each -> each.deviation(each.y())));
  }

  /** Points weighed by a curve through them. */
  static WeightedPoints by(Curve curve, List<Point> points) {
    return of(points, points.stream().mapToDouble(each -> each.deviation(curve.at(each.x()))));
  }

  private static WeightedPoints of(List<Point> points, DoubleStream deviations) {
    return new WeightedPoints(points, new ArrayRealVector(deviations.toArray()));
  }

  /** The best curve of a family, looked for from one of them on. */
  Curve best(Curve start) {
    RealVector optimum =
        new LevenbergMarquardtOptimizer()
            .optimize(
                LeastSquaresFactory.create(
                    p -> residuals(new Curve(start.family(), p)),
                    new ArrayRealVector(points.size()),
                    start.p(),
                    (iteration, before, after) -> iteration >= MOST_ITERATIONS,
                    MAX_EVALUATIONS,
                    MAX_EVALUATIONS))
            .getPoint();
    return new Curve(start.family(), optimum);
  }

  /** S. */
  double sumOfSquares(Curve curve) {
    RealVector residuals = residuals(curve).getFirst();
    return residuals.dotProduct(residuals);
  }

  /** By how much of u the weights of any point differ at most. */
  double differsFrom(WeightedPoints other) {
    return other.deviations.ebeDivide(deviations).mapSubtract(1).getLInfNorm();
  }

  /** The points above detection alone, weighed as they are here. */
  WeightedPoints detected() {
    int[] which =
        IntStream.range(0, points.size()).filter(i -> points.get(i).isDetected()).toArray();
    return of(
        IntStream.of(which).mapToObj(points::get).toList(),
        IntStream.of(which).mapToDouble(deviations::getEntry));
  }

  /** J'J, with the derivatives of the residuals in J. */
  RealMatrix information(Curve curve) {
    RealMatrix jacobian = residuals(curve).getSecond();
    return jacobian.transposeMultiply(jacobian);
  }

  /** (f - y)/u, and its derivatives by the parameters. */
  private Pair<RealVector, RealMatrix> residuals(Curve curve) {
    Gradient[] variables = curve.variables();
    Gradient[] residuals = new Gradient[points.size()];
    Arrays.setAll(
        residuals,
        i ->
            curve
                .family()
                .at(points.get(i).x(), variables)
                .subtract(points.get(i).y())
                .divide(deviations.getEntry(i)));
    return new Pair<>(
        new ArrayRealVector(Stream.of(residuals).mapToDouble(Gradient::getValue).toArray()),
        new Array2DRowRealMatrix(
            Stream.of(residuals).map(Gradient::getGradient).toArray(double[][]::new)));
  }
}
