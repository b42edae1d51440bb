package org.sapotrace.washmodel;

import java.util.List;
import org.hipparchus.stat.regression.SimpleRegression;
import org.sapotrace.measure.Rounding;

/**
 * The straight line y = ym + b (t - tm) through results in the order of time, as those of a tank,
 * and when they reach a limit L by it. Ordinary least squares; tm and ym are the means of the n
 * results, s² = Σ r²/(n - 2) with the residuals r, and S = Σ (t - tm)².
 *
 * <p>Results that happen to lie on a line are no surer than they are themselves. With the mean u²
 * of the squares of their own standard uncertainties, s(b) = max(s, u) / sqrt(S): this is the line
 * weighted by u, with the Birge ratio s/u, which counts with 1 at least (ISO/TS 28037:2010, clause
 * 6). All count alike, as what scatters between samples is not in u. A result whose uncertainty
 * nobody knows adds nothing to u.
 *
 * <p>Where the line stands beyond L at the last result, L is passed, whichever way it goes. Else
 * there is a trend where b differs from 0 by more than h / sqrt(S), h = max(t s, 1.96 u), with
 * Student's t for n - 2 degrees of freedom, each for 95 %. The line reaches L at tm + (L - ym) / b;
 * the 95 % interval holds all times t at which a single result may just lie at L by the prediction
 * interval, |ym + b (t - tm) - L| ≤ h sqrt(1 + 1/n + (t - tm)²/S). Source: N. R. Draper, H. Smith,
 * Applied Regression Analysis, 3rd edition (1998), 3.2 (from memory).
 */
public final class Trend {

  private static final int FEWEST = 4;
  private static final String MODEL = "straight line: y = a + b t";

  /**
   * One result.
   *
   * @param at when, in the unit of time, counted from anywhere
   * @param value what was found
   * @param uncertainty the standard uncertainty of that, at least 0; 0 if nobody knows
   */
  public record Reading(double at, double value, double uncertainty) {

    /** Refuses what is not finite with {@link IllegalArgumentException}. */
    public Reading {
      boolean isUncertain = uncertainty >= 0 && uncertainty < Double.POSITIVE_INFINITY;
      if (!(Double.isFinite(at) && Double.isFinite(value) && isUncertain)) {
        throw new IllegalArgumentException("A trend is looked for among finite numbers.");
      }
    }

    /** A result whose uncertainty nobody knows. */
    public Reading(double at, double value) {
      this(at, value, 0);
    }
  }

  /**
   * What is not to be reached.
   *
   * @param value finite
   * @param isUpper whether results above it are beyond it, and not those below
   * @param unit its own, and that of the results
   */
  public record Limit(double value, boolean isUpper, String unit) {

    /** Refuses what is not finite with {@link IllegalArgumentException}. */
    public Limit {
      if (!Double.isFinite(value)) {
        throw new IllegalArgumentException("A limit is a finite number.");
      }
    }

    private boolean isPassedBy(double level) {
      return isUpper ? level > value : level < value;
    }
  }

  private final Limit limit;
  private final String time;
  private final SimpleRegression line = new SimpleRegression();
  private final double middle;
  private final double last;
  private final double deviation;
  private final double half;

  private Trend(List<Reading> readings, Limit limit, String time) {
    this.limit = limit;
    this.time = time;
    readings.forEach(each -> line.addData(each.at(), each.value()));
    middle = readings.stream().mapToDouble(Reading::at).average().orElseThrow();
    last = readings.stream().mapToDouble(Reading::at).max().orElseThrow();
    double scatter = Math.sqrt(line.getMeanSquareError());
    double known =
        Math.sqrt(
            readings.stream().mapToDouble(each -> each.uncertainty * each.uncertainty).sum()
                / readings.size());
    deviation = Math.max(scatter, known);
    half = Math.max(Coverage.factor(readings.size() - 2) * scatter, Coverage.NORMAL * known);
  }

  /**
   * How long it takes from the last result until the results reach a limit.
   *
   * @param readings in any order
   * @param time the unit of time
   */
  public static Forecast towards(List<Reading> readings, Limit limit, String time) {
    long times = readings.stream().mapToDouble(Reading::at).distinct().count();
    if (times < FEWEST) {
      return new Forecast.Insufficient(
          "A trend needs results at %d different times; there are %d.".formatted(FEWEST, times));
    }
    return Attempt.at(() -> new Trend(readings, limit, time).forecast());
  }

  private Forecast forecast() {
    String slopeUnit = limit.unit() + "/" + time;
    double level = line.predict(last);
    double slope = line.getSlope();
    double root = Math.sqrt(line.getXSumSquares());
    List<Forecast.Parameter> parameters =
        List.of(
            new Forecast.Parameter("slope", slope, deviation / root, slopeUnit),
            new Forecast.Parameter("level", level, levelError(), limit.unit()));
    String course = "The slope is %s %s".formatted(Rounding.of(slope, half / root), slopeUnit);
    String stand =
        "the level is %s, the limit %s %s"
            .formatted(Rounding.of(level), Rounding.of(limit.value()), limit.unit());
    boolean isTrend = Math.abs(slope) > half / root;
    boolean isTowards = isTrend && slope > 0 == limit.isUpper();
    if (limit.isPassedBy(level)) {
      return new Forecast.Expected(
          MODEL,
          parameters,
          isTowards ? remaining(slope) : Forecast.Remaining.none("time", time, limit.value()),
          "%s; %s, which is passed already.".formatted(course, stand));
    }
    if (!isTowards) {
      String whither = isTrend ? "away from the limit" : "which may as well be 0";
      return new Forecast.NoTrend(
          MODEL, parameters, "%s, %s; %s.".formatted(course, whither, stand));
    }
    Forecast.Remaining left = remaining(slope);
    return new Forecast.Expected(
        MODEL, parameters, left, "%s; %s, reached in %s.".formatted(course, stand, words(left)));
  }

  private static String words(Forecast.Remaining left) {
    return "%s %s (95 %%: %s to %s)"
        .formatted(
            Rounding.of(left.value()),
            left.unit(),
            Rounding.of(left.lower()),
            Rounding.of(left.upper()));
  }

  private Forecast.Remaining remaining(double slope) {
    double d = line.predict(middle) - limit.value();
    double variance = half * half;
    double inclination = variance / line.getXSumSquares();
    double level = variance * (1 + 1.0 / line.getN());
    // The roots x = t - tm of (d + b x)² = level + inclination x².
    double divisor = slope * slope - inclination;
    double width = Math.sqrt(level * divisor + inclination * d * d) / divisor;
    double centre = middle - d * slope / divisor;
    double value = left(middle - d / slope);
    return new Forecast.Remaining(
        "time",
        value,
        Math.min(value, left(centre - width)),
        Math.max(value, left(centre + width)),
        time,
        limit.value());
  }

  private double left(double at) {
    return Math.max(0, at - last);
  }

  private double levelError() {
    double distance = last - middle;
    return deviation * Math.sqrt(1.0 / line.getN() + distance * distance / line.getXSumSquares());
  }
}
