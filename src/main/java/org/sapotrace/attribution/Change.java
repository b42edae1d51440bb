package org.sapotrace.attribution;

import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/**
 * When and how results began to move: y = a + D g(t), with g 0 up to a day and behind it 1 for a
 * step, and rising evenly to 1 at the last result for a ramp, where it stays for what was titrated
 * later. Of both shapes, and of all days, the one with the least sum of squares is taken; for
 * normal errors it is the most likely.
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
   * @throws IllegalArgumentException without a result behind these
   */
  static Change in(Evidence evidence, int before) {
    if (!(before > 0 && evidence.results().size() > before)) {
      throw new IllegalArgumentException(
          "A change is looked for behind results that had not moved.");
    }
    Fitted step = best(Shape.STEP, evidence, before);
    Fitted ramp = best(Shape.RAMP, evidence, before);
    Change change = (ramp.sumOfSquares() < step.sumOfSquares() ? ramp : step).change();
    double gain = Math.abs(ramp.sumOfSquares() - step.sumOfSquares());
    return new Change(change.shape, change.day, change.last, gain);
  }

  private record Fitted(Change change, double sumOfSquares) {}

  private static Fitted best(Shape shape, Evidence evidence, int before) {
    List<Evidence.Result> results = evidence.results();
    double last = results.get(results.size() - 1).day();
    return IntStream.range(before - 1, results.size() - 1)
        .mapToObj(i -> new Change(shape, results.get(i).day(), last, 0))
        .map(change -> new Fitted(change, change.shiftOf(evidence).sumOfSquares()))
        .min(Comparator.comparing(Fitted::sumOfSquares))
        .orElseThrow();
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
    return shape == Shape.STEP ? 1 : Math.min(1, (at - day) / (last - day));
  }
}
