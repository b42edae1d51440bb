package org.sapotrace.washmodel;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.stat.regression.SimpleRegression;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.WeightedLine.Interval;
import org.sapotrace.washmodel.WeightedPoints.Curve;
import org.sapotrace.washmodel.WeightedPoints.Family;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * The curve of {@link Breakthrough} through results. It is fitted as C/C_0 = b + (1 - b)/(1 +
 * exp(-z)) with z = a + k (V - Vm), Vm the mean throughput: k may then be 0, where tau = Vm - a/k
 * is nowhere. The leak b is 0, and no parameter, where the results do not tell of one.
 */
final class BreakthroughFit {

  static final String MODEL = "logistic: C/C_0 = 1/(1 + exp(k (tau - V)))";
  private static final String LEAKING =
      "logistic with a leak: C/C_0 = b + (1 - b)/(1 + exp(k (tau - V)))";

  /** From so many results above detection on, a leak is told from the curve's own beginning. */
  private static final int FEWEST_FOR_LEAK = 8;

  private static final double MOST_AT_START = 0.999;
  private static final double LEAST_HELD = 1e-9;
  private static final double MILLIGRAMS_PER_GRAM = 1000;

  private final Breakthrough.Tower tower;
  private final List<Point> points;
  private final double inlet;
  private final double feed;
  private final double middle;
  private final double last;
  private final CurveFit fit;

  /**
   * Fits the curve.
   *
   * @param readings with the soap before the tower, above detection at 4 throughputs or more
   * @param last the throughput from which on what is left counts
   */
  BreakthroughFit(Breakthrough.Tower tower, List<Breakthrough.Reading> readings, double last) {
    this.tower = tower;
    points = readings.stream().map(tower::point).toList();
    inlet = readings.stream().mapToDouble(Breakthrough.Reading::known).average().orElseThrow();
    feed = Objects.requireNonNullElse(tower.feed(), inlet);
    middle = points.stream().mapToDouble(Point::x).average().orElseThrow();
    this.last = last;
    fit = leaking().orElseGet(() -> new CurveFit(points, start(0), 2));
  }

  /** With a leak that is more than its standard error: without it the intervals are too sure. */
  private Optional<CurveFit> leaking() {
    if (points.stream().filter(Point::isDetected).count() < FEWEST_FOR_LEAK) {
      return Optional.empty();
    }
    try {
      CurveFit leaking = new CurveFit(points, start(levelAtFirst()), 3);
      double leak = leaking.value(this::leak);
      return Optional.of(leaking)
          .filter(fitted -> leak > fitted.standardError(this::leak) && leak < 1)
          .filter(fitted -> fitted.value(p -> p[1]) > 0);
    } catch (MathRuntimeException | IllegalArgumentException notFound) {
      return Optional.empty();
    }
  }

  /** What the first third of the results comes to on average. */
  private double levelAtFirst() {
    return points.subList(0, points.size() / 3).stream().mapToDouble(Point::y).average().orElse(0);
  }

  Forecast forecast() {
    if (fit.value(p -> p[1]) <= 0 || fit.allows(new Curve((x, p) -> p[0], meanFraction()))) {
      return level();
    }
    if (feed <= tower.limit()) {
      return new Forecast.NoTrend(
          model(),
          parameters(),
          "The soap before the tower, %s mg/kg, is within the limit of %s mg/kg itself."
              .formatted(Rounding.of(feed), Rounding.of(tower.limit())));
    }
    Forecast.Remaining left = remaining();
    return new Forecast.Expected(model(), parameters(), left, words(left));
  }

  /** Of a curve that may as well be level: a bed that is spent lets through as much as ever. */
  private Forecast level() {
    List<Forecast.Parameter> course =
        List.of(
            fit.parameter("k", "1/" + tower.counted().unit(), p -> p[1]),
            fit.parameter("level", "mg/kg", p -> fraction(leak(p), z(last, p)).multiply(feed)));
    double level = course.get(1).value();
    return level > tower.limit()
        ? tower.passed(
            model(),
            course,
            "the soap behind the tower does not rise for certain, and comes to %s mg/kg"
                .formatted(Rounding.of(level)))
        : new Forecast.NoTrend(
            model(),
            course,
            "The soap behind the tower does not rise for certain, so no breakthrough is in sight.");
  }

  private String words(Forecast.Remaining left) {
    return "With %s mg/kg before the tower, %s mg/kg "
            .formatted(Rounding.of(feed), Rounding.of(left.limit()))
        + (left.value() > 0
            ? "come through after %s %s more (95 %%: %s to %s)."
                .formatted(
                    Rounding.of(left.value()),
                    left.unit(),
                    Rounding.of(left.lower()),
                    Rounding.of(left.upper()))
            : "come through already.");
  }

  private boolean isLeaking() {
    return fit.curve().p().getDimension() > 2;
  }

  private String model() {
    return isLeaking() ? LEAKING : MODEL;
  }

  private double meanFraction() {
    return points.stream().mapToDouble(Point::y).average().orElseThrow();
  }

  private Gradient z(double throughput, Gradient[] p) {
    return p[0].add(p[1].multiply(throughput - middle));
  }

  private Gradient tau(Gradient[] p) {
    return p[0].divide(p[1]).negate().add(middle);
  }

  /** b, which is no parameter of a curve of two. */
  private Gradient leak(Gradient[] p) {
    return p.length > 2 ? p[2] : p[0].multiply(0);
  }

  /** b + (1 - b)/(1 + exp(-z)). */
  private static Gradient fraction(Gradient leak, Gradient z) {
    return leak.add(leak.negate().add(1).multiply(Logistic.of(z)));
  }

  /** The straight line through the logits, which is close, but ruled by its tails. */
  private Curve start(double leak) {
    SimpleRegression line = new SimpleRegression();
    for (Point point : points) {
      double held = Math.min((point.y() - leak) / (1 - leak), MOST_AT_START);
      if (point.isDetected() && held > 0) {
        line.addData(point.x(), Math.log(held / (1 - held)));
      }
    }
    double[] p = {line.predict(middle), line.getSlope(), leak};
    return new Curve(
        (x, some) -> fraction(leak(some), z(x, some)), leak > 0 ? p : Arrays.copyOf(p, 2));
  }

  private List<Forecast.Parameter> parameters() {
    String volume = tower.counted().unit();
    String uptake = tower.counted().uptakeUnit();
    List<Forecast.Parameter> parameters = new ArrayList<>();
    parameters.add(fit.parameter("k", "1/" + volume, p -> p[1]));
    parameters.add(fit.parameter("tau", volume, this::tau));
    if (isLeaking()) {
      parameters.add(fit.parameter("leak", "1", this::leak));
    }
    parameters.add(fit.parameter("capacity", uptake, p -> soap(p).multiply(tau(p))));
    parameters.add(fit.parameter("soap taken up", uptake, p -> soap(p).multiply(heldBack(p))));
    return parameters;
  }

  /** In each litre that does not leak past the bed, in g. */
  private Gradient soap(Gradient[] p) {
    return leak(p).negate().add(1).multiply(inlet * tower.density() / MILLIGRAMS_PER_GRAM);
  }

  /** ∫(1 - 1/(1 + exp(-z))) dV up to the last result. */
  private Gradient heldBack(Gradient[] p) {
    return Logistic.integral(z(last, p))
        .subtract(Logistic.integral(z(0, p)))
        .divide(p[1])
        .negate()
        .add(last);
  }

  private Forecast.Remaining remaining() {
    double slope = fit.value(p -> p[1]);
    double reached = fit.value(this::crossing);
    Interval interval =
        fit.interval(
            reached,
            fit.standardError(this::crossing),
            last,
            at -> fit.excess(fit.best(reachingLimit(at, slopeThrough(at, reached, slope)))));
    double value = Math.max(0, reached - last);
    return new Forecast.Remaining(
        "throughput",
        value,
        Math.min(value, interval.lower() - last),
        Math.max(value, interval.upper() - last),
        tower.counted().unit(),
        tower.limit());
  }

  /** z at which the limit comes through; of a bed past which more leaks, far behind it. */
  private Gradient limitLogit(Gradient leak) {
    Gradient held = leak.negate().add(tower.limit() / feed).divide(leak.negate().add(1));
    return held.getValue() > LEAST_HELD
        ? held.divide(held.negate().add(1)).log()
        : held.multiply(0).add(Math.log(LEAST_HELD));
  }

  private Gradient crossing(Gradient[] p) {
    return p[0].negate().add(limitLogit(leak(p))).divide(p[1]).add(middle);
  }

  /** A curve that reaches the limit there, with the slope of its logits, and the leak if any. */
  private Curve reachingLimit(double at, double slope) {
    Family family =
        (x, p) -> {
          Gradient leak = p.length > 1 ? p[1] : p[0].multiply(0);
          return fraction(leak, p[0].multiply(x - at).add(limitLogit(leak)));
        };
    return isLeaking() ? new Curve(family, slope, fit.value(this::leak)) : new Curve(family, slope);
  }

  /** Of the line of logits that reaches the limit elsewhere and comes closest to the fitted one. */
  private double slopeThrough(double at, double reached, double slope) {
    double products = 0;
    double squares = 0;
    for (Point point : points) {
      if (point.isDetected()) {
        products += (point.x() - at) * (point.x() - reached);
        squares += (point.x() - at) * (point.x() - at);
      }
    }
    return slope * products / squares;
  }
}
