package org.sapotrace.attribution;

import java.util.List;

/**
 * When and how results began to move: y = a + D g(t), with g 0 up to a day and behind it 1 for a
 * step, and rising evenly to 1 at the last result for a ramp. Of both shapes, and of all days, the
 * one with the least sum of squares is taken; for normal errors it is the most likely.
 *
 * @param shape step or ramp
 * @param day the last day on which nothing had moved yet
 * @param last the day of the last result looked at
 * @param gain by how much smaller the sum of squares is, in units of sigma squared, than with the
 *     best of the other shape; at least 0
 */
public record Change(Shape shape, double day, double last, double gain) {

  /** How something moves. */
  public enum Shape {
    /** At once, and then it stays. */
    STEP("step"),
    /** Evenly, further and further. */
    RAMP("ramp");

    private final String id;

    Shape(String id) {
      this.id = id;
    }

    /** The name in the interface. */
    public String id() {
      return id;
    }
  }

  /**
   * The most likely change among results.
   *
   * @param before the least number of results, in order, that the change lies behind
   * @throws IllegalArgumentException with fewer than two results behind these
   */
  static Change in(Evidence evidence, int before) {
    List<Evidence.Result> results = evidence.results();
    if (!(before > 0 && results.size() > before)) {
      throw new IllegalArgumentException("A change is looked for behind results that had not moved.");
    }
    Change best = null;
    double bestSum = Double.POSITIVE_INFINITY;
    double otherSum = Double.POSITIVE_INFINITY;
    for (Shape shape : Shape.values()) {
      double sumOfShape = Double.POSITIVE_INFINITY;
      Change ofShape = null;
      for (int i = before - 1; i < results.size() - 1; i++) {
        Change change =
            new Change(shape, results.get(i).day(), results.get(results.size() - 1).day(), 0);
        double sum = change.shiftOf(evidence).sumOfSquares();
        if (sum < sumOfShape) {
          sumOfShape = sum;
          ofShape = change;
        }
      }
      if (sumOfShape < bestSum) {
        otherSum = bestSum;
        bestSum = sumOfShape;
        best = ofShape;
      } else {
        otherSum = Math.min(otherSum, sumOfShape);
      }
    }
    return best == null ? null : new Change(best.shape, best.day, best.last, otherSum - bestSum);
  }

  /**
   * By how much results had moved on the last day.
   *
   * @param estimate D, NaN where no result lies on one of the sides
   * @param variance of it, infinite there
   * @param sumOfSquares of what is left, in units of sigma squared
   */
  record Shift(double estimate, double variance, double sumOfSquares) {}

  /** Least squares for a and D, each result with the scatter of the evidence. */
  Shift shiftOf(Evidence evidence) {
    double n = 0;
    double g = 0;
    double gg = 0;
    double y = 0;
    double gy = 0;
    double yy = 0;
    double reference = evidence.results().get(0).value();
    for (Evidence.Result result : evidence.results()) {
      double moved = moved(result.day());
      double value = result.value() - reference;
      n++;
      g += moved;
      gg += moved * moved;
      y += value;
      gy += moved * value;
      yy += value * value;
    }
    double variance = evidence.sigma() * evidence.sigma();
    double spread = gg - g * g / n;
    if (!(spread > 1e-9)) {
      return new Shift(Double.NaN, Double.POSITIVE_INFINITY, (yy - y * y / n) / variance);
    }
    double covariance = gy - g * y / n;
    double estimate = covariance / spread;
    return new Shift(
        estimate, variance / spread, (yy - y * y / n - covariance * estimate) / variance);
  }

  private double moved(double at) {
    if (at <= day) {
      return 0;
    }
    return shape == Shape.STEP ? 1 : (at - day) / (last - day);
  }
}
