package org.sapotrace.washmodel;

import java.util.List;
import java.util.Objects;
import org.hipparchus.analysis.differentiation.Gradient;
import org.hipparchus.stat.regression.SimpleRegression;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.WeightedLine.Interval;
import org.sapotrace.washmodel.WeightedPoints.Curve;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * The curve of {@link Breakthrough} through results. It is fitted as C/C_0 = 1/(1 + exp(-z)) with z
 * = a + k (V - Vm), Vm the mean throughput: k may then be 0, where tau = Vm - a/k is nowhere.
 */
final class BreakthroughFit {

  private static final String MODEL = "logistic: C/C_0 = 1/(1 + exp(k (tau - V)))";
  private static final double MOST_AT_START = 0.999;
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
    fit = new CurveFit(points, start(), 2);
  }

  Forecast forecast() {
    if (fit.value(p -> p[1]) <= 0 || fit.allows(new Curve((x, p) -> p[0], meanFraction()))) {
      return new Forecast.NoTrend(
          MODEL,
          List.of(fit.parameter("k", "1/" + tower.counted().unit(), p -> p[1])),
          "The soap behind the tower does not rise for certain, so no breakthrough is in sight.");
    }
    if (feed <= tower.limit()) {
      return new Forecast.NoTrend(
          MODEL,
          parameters(),
          "The soap before the tower, %s mg/kg, is within the limit of %s mg/kg itself."
              .formatted(Rounding.of(feed), Rounding.of(tower.limit())));
    }
    Forecast.Remaining left = remaining();
    return new Forecast.Expected(MODEL, parameters(), left, words(left));
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

  private double meanFraction() {
    return points.stream().mapToDouble(Point::y).average().orElseThrow();
  }

  private Gradient z(double throughput, Gradient[] p) {
    return p[0].add(p[1].multiply(throughput - middle));
  }

  private Gradient tau(Gradient[] p) {
    return p[0].divide(p[1]).negate().add(middle);
  }

  /** The straight line through the logits, which is close, but ruled by its tails. */
  private Curve start() {
    SimpleRegression line = new SimpleRegression();
    for (Point point : points) {
      if (point.isDetected()) {
        double y = Math.min(point.y(), MOST_AT_START);
        line.addData(point.x(), Math.log(y / (1 - y)));
      }
    }
    return new Curve((x, p) -> Logistic.of(z(x, p)), line.predict(middle), line.getSlope());
  }

  private List<Forecast.Parameter> parameters() {
    String volume = tower.counted().unit();
    double soap = inlet * tower.density() / MILLIGRAMS_PER_GRAM;
    return List.of(
        fit.parameter("k", "1/" + volume, p -> p[1]),
        fit.parameter("tau", volume, this::tau),
        fit.parameter("capacity", tower.counted().uptakeUnit(), p -> tau(p).multiply(soap)),
        fit.parameter(
            "soap taken up", tower.counted().uptakeUnit(), p -> heldBack(p).multiply(soap)));
  }

  /** ∫(1 - C/C_0) dV up to the last result. */
  private Gradient heldBack(Gradient[] p) {
    return Logistic.integral(z(last, p))
        .subtract(Logistic.integral(z(0, p)))
        .divide(p[1])
        .negate()
        .add(last);
  }

  private Forecast.Remaining remaining() {
    double limitLogit = -Math.log(feed / tower.limit() - 1);
    double slope = fit.value(p -> p[1]);
    double reached = fit.value(p -> crossing(limitLogit, p));
    Interval interval =
        fit.interval(
            reached,
            fit.standardError(p -> crossing(limitLogit, p)),
            last,
            at ->
                fit.excess(
                    fit.best(
                        new Curve(
                            (x, p) -> Logistic.of(p[0].multiply(x - at).add(limitLogit)),
                            slopeThrough(at, reached, slope)))));
    double value = Math.max(0, reached - last);
    return new Forecast.Remaining(
        "throughput",
        value,
        Math.min(value, interval.lower() - last),
        Math.max(value, interval.upper() - last),
        tower.counted().unit(),
        tower.limit());
  }

  private Gradient crossing(double limitLogit, Gradient[] p) {
    return p[0].negate().add(limitLogit).divide(p[1]).add(middle);
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
