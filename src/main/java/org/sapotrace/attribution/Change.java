package org.sapotrace.attribution;

import java.util.List;
import java.util.function.ToDoubleFunction;
import java.util.stream.IntStream;

/**
 * When and how results began to move: y = a + D g(t), with g 0 up to a day and behind it 1 for a
 * step, and rising evenly to 1 at the last result for a ramp, where it stays for what was titrated
 * later. For normal errors the one with the least sum of squares is the most likely.
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

  /** Squares so much above the least, 2 in log-likelihood, are credible as well. */
  private static final double CREDIBLE = 4;

  /** Less than this, and all results lie on one side. */
  private static final double LEAST_SPREAD = 1e-9;

  /**
   * The changes that results make credible: of the shape that fits them better, and of each day
   * about which their sum of squares is at most {@value #CREDIBLE} above the least.
   *
   * @param before the least number of results, in order, that the change lies behind
   * @return in order of time, at least one
   * @throws IllegalArgumentException without a result behind these
   */
  static List<Change> credible(Evidence evidence, int before) {
    if (!(before > 0 && evidence.results().size() > before)) {
      throw new IllegalArgumentException(
          "A change is looked for behind results that had not moved.");
    }
    List<Fitted> steps = fitted(Shape.STEP, evidence, before);
    List<Fitted> ramps = fitted(Shape.RAMP, evidence, before);
    double ofSteps = least(steps);
    double ofRamps = least(ramps);
    double gain = Math.abs(ofRamps - ofSteps);
    return (ofRamps < ofSteps ? ramps : steps)
        .stream()
            .filter(fitted -> fitted.sumOfSquares <= Math.min(ofSteps, ofRamps) + CREDIBLE)
            .map(
                fitted ->
                    new Change(fitted.change.shape, fitted.change.day, fitted.change.last, gain))
            .toList();
  }

  private record Fitted(Change change, double sumOfSquares) {}

  private static List<Fitted> fitted(Shape shape, Evidence evidence, int before) {
    List<Evidence.Result> results = evidence.results();
    double last = results.get(results.size() - 1).day();
    return IntStream.range(before - 1, results.size() - 1)
        .mapToObj(i -> new Change(shape, results.get(i).day(), last, 0))
        .map(change -> new Fitted(change, change.shiftOf(evidence).sumOfSquares()))
        .toList();
  }

  private static double least(List<Fitted> fitted) {
    return fitted.stream().mapToDouble(Fitted::sumOfSquares).min().orElseThrow();
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
    if (!(spread > LEAST_SPREAD)) {
      return new Shift(Double.NaN, Double.POSITIVE_INFINITY, (yy - y * y / n) / variance);
    }
    double covariance = gy - g * y / n;
    double estimate = covariance / spread;
    return new Shift(
        estimate, variance / spread, (yy - y * y / n - covariance * estimate) / variance);
  }

  /**
   * By how much D moves for the r of a titrant, which only counts as far as results behind the
   * change were titrated with it: 1 where all of them were.
   */
  double shareOf(String titrant, Evidence evidence) {
    return weighted(evidence, each -> moved(each.day()) * moves(each, titrant));
  }

  /**
   * By how much D moves for what a titrant was off all along: 1 where it took the place of another
   * at the change, -1 where another took its place, 0 where it was there throughout.
   */
  double exchangeOf(String titrant, Evidence evidence) {
    return weighted(evidence, each -> moves(each, titrant));
  }

  private static int moves(Evidence.Result result, String titrant) {
    return result.titrants().getOrDefault(titrant, 0);
  }

  /** What least squares make D of some values: the sum of (g - mean of g) y over that of g. */
  private double weighted(Evidence evidence, ToDoubleFunction<Evidence.Result> values) {
    List<Evidence.Result> results = evidence.results();
    double mean = results.stream().mapToDouble(each -> moved(each.day())).average().orElseThrow();
    double spread = 0;
    double sum = 0;
    for (Evidence.Result result : results) {
      double weight = moved(result.day()) - mean;
      spread += weight * moved(result.day());
      sum += weight * values.applyAsDouble(result);
    }
    return spread > LEAST_SPREAD ? sum / spread : 0;
  }

  private double moved(double at) {
    if (at <= day) {
      return 0;
    }
    return shape == Shape.STEP ? 1 : Math.min(1, (at - day) / (last - day));
  }
}
