package org.sapotrace.washmodel;

import java.util.Comparator;
import java.util.List;
import java.util.stream.DoubleStream;
import org.hipparchus.analysis.differentiation.Gradient;
import org.sapotrace.measure.Rounding;
import org.sapotrace.measure.WeightedLine.Interval;
import org.sapotrace.washmodel.WeightedPoints.Curve;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * The curve of {@link Flush} through samples, as C = p_0 exp(-p_1 (V - V_1)) + p_2 with the rate
 * p_1 = 1/V_h and the tail p_2. Where a tail below 0 would be best it is 0, and there is no p_2.
 */
final class FlushFit {

  /** Hold-ups between the first and the last sample, to begin with. */
  private static final double[] STARTS = {0.5, 2, 5, 12};

  private static final int PARAMETERS = 3;

  private final Flush.Aim aim;
  private final List<Point> points;
  private final double first;
  private final double last;
  private final CurveFit fit;

  /**
   * Fits the curve.
   *
   * @param readings above detection at 5 volumes or more, in order of time
   */
  FlushFit(Flush.Aim aim, List<Flush.Reading> readings) {
    this.aim = aim;
    points = readings.stream().map(aim::point).toList();
    first = points.get(0).x();
    last = points.get(points.size() - 1).x();
    CurveFit free = new CurveFit(points, start(), PARAMETERS);
    Curve withoutTail =
        new Curve(this::curve, free.value(FlushFit::above), free.value(FlushFit::rate));
    fit = free.value(FlushFit::tail) < 0 ? new CurveFit(points, withoutTail, PARAMETERS) : free;
  }

  private static Gradient above(Gradient[] p) {
    return p[0];
  }

  private static Gradient rate(Gradient[] p) {
    return p[1];
  }

  private static Gradient tail(Gradient[] p) {
    return p.length < PARAMETERS ? p[0].multiply(0) : p[2];
  }

  private Gradient curve(double volume, Gradient[] p) {
    return above(p).multiply(decay(volume, p)).add(tail(p));
  }

  private Gradient decay(double volume, Gradient[] p) {
    return rate(p).multiply(first - volume).exp();
  }

  /** The best of some curves, the points weighed as they lie. */
  private Curve start() {
    double tail = points.stream().mapToDouble(Point::y).min().orElseThrow() / 2;
    double above = points.get(0).y() - tail;
    WeightedPoints asTheyLie = WeightedPoints.asTheyLie(points);
    return DoubleStream.of(STARTS)
        .map(holdUps -> holdUps / (last - first))
        .mapToObj(rate -> asTheyLie.best(new Curve(this::curve, above, rate, tail)))
        .min(Comparator.comparingDouble(asTheyLie::sumOfSquares))
        .orElseThrow();
  }

  Forecast forecast() {
    double tail = fit.value(FlushFit::tail);
    boolean mayFlattenAtLevel = !(excess(Double.POSITIVE_INFINITY) > 0);
    if (tail < aim.level()) {
      Forecast.Remaining left = remaining(mayFlattenAtLevel);
      return new Forecast.Expected(Flush.MODEL, parameters(), left, words(left));
    }
    String flattens =
        "at %s mg/kg, above the clean level of %s mg/kg"
            .formatted(Rounding.of(tail), Rounding.of(aim.level()));
    return mayFlattenAtLevel
        ? new Forecast.Insufficient(
            "The soap seems to flatten %s, but that is not certain: take samples further on."
                .formatted(flattens))
        : new Forecast.NoTrend(
            Flush.MODEL,
            parameters(),
            "The soap flattens %s: more methanol of this kind does not clean the tower."
                .formatted(flattens));
  }

  private List<Forecast.Parameter> parameters() {
    return List.of(
        fit.parameter("C_1", "mg/kg", p -> above(p).add(tail(p))),
        fit.parameter("V_h", aim.counted().unit(), p -> rate(p).reciprocal()),
        fit.parameter("C_inf", "mg/kg", FlushFit::tail));
  }

  private Forecast.Remaining remaining(boolean mayFlattenAtLevel) {
    double reached = fit.value(this::crossing);
    Interval interval =
        fit.interval(reached, fit.standardError(this::crossing), last, this::excess);
    double value = Math.max(0, reached - last);
    return new Forecast.Remaining(
        "volume",
        value,
        Math.min(value, interval.lower() - last),
        mayFlattenAtLevel ? Double.POSITIVE_INFINITY : Math.max(value, interval.upper() - last),
        aim.counted().unit(),
        aim.level());
  }

  /** V_1 + V_h ln((C_1 - C_inf)/(L - C_inf)). */
  private Gradient crossing(Gradient[] p) {
    return above(p).divide(tail(p).negate().add(aim.level())).log().divide(rate(p)).add(first);
  }

  /**
   * Of the best curve that reaches the level L at V_L, C = L + p_0 (exp(-p_1 (V - V_1)) - exp(-p_1
   * (V_L - V_1))), or C = L exp(-p_0 (V - V_L)) where its tail would be below 0. An infinite V_L
   * stands for the curves that flatten at L.
   */
  private double excess(double at) {
    double above = fit.value(FlushFit::above);
    double rate = fit.value(FlushFit::rate);
    if (at == Double.POSITIVE_INFINITY) {
      return fit.excess(
          fit.best(
              new Curve((v, p) -> above(p).multiply(decay(v, p)).add(aim.level()), above, rate)));
    }
    Curve best =
        fit.best(
            new Curve(
                (v, p) -> above(p).multiply(decay(v, p).subtract(decay(at, p))).add(aim.level()),
                above,
                rate));
    boolean hasTail =
        best.p().getEntry(0) * Math.exp(best.p().getEntry(1) * (first - at)) <= aim.level();
    return fit.excess(
        hasTail
            ? best
            : fit.best(
                new Curve(
                    (v, p) -> p[0].multiply(at - v).exp().multiply(aim.level()),
                    Math.log(fit.curve().at(first) / aim.level()) / (at - first))));
  }

  private String words(Forecast.Remaining left) {
    if (left.value() == 0) {
      return "By the curve %s mg/kg are reached; the next samples have to show it."
          .formatted(Rounding.of(left.limit()));
    }
    return "%s mg/kg are reached after %s %s more, %s hold-ups (95 %%: %s)."
        .formatted(
            Rounding.of(left.limit()),
            Rounding.of(left.value()),
            left.unit(),
            Rounding.of(left.value() * fit.value(FlushFit::rate)),
            Double.isFinite(left.upper())
                ? Rounding.of(left.lower()) + " to " + Rounding.of(left.upper())
                : Rounding.of(left.lower()) + " or more: the soap may flatten above it");
  }
}
