package org.sapotrace.washmodel;

import java.util.List;
import org.hipparchus.stat.regression.SimpleRegression;
import org.sapotrace.measure.Rounding;

/**
 * The straight line y = ym + b (t - tm) through results in the order of time, as those of a tank,
 * and when they reach a limit L by it. Ordinary least squares; tm and ym are the means of the n
 * results, s² = Σ r²/(n - 2) with the residuals r, S = Σ (t - tm)² and s(b) = s / sqrt(S).
 *
 * <p>Where the line stands beyond L at the last result, L is passed, whichever way it goes. Else
 * there is a trend where b differs from 0 with 95 % confidence, by Student's t with n - 2 degrees
 * of freedom. The line reaches L at tm + (L - ym) / b; the 95 % interval holds all times t at which
 * a single result may just lie at L by the prediction interval, |ym + b (t - tm) - L| ≤ t s sqrt(1
 * + 1/n + (t - tm)²/S). Source: N. R. Draper, H. Smith, Applied Regression Analysis, 3rd edition
 * (1998), 3.2 (from memory).
 */
public final class Trend {

  private static final int FEWEST = 4;
  private static final String MODEL = "straight line: y = a + b t";

  /**
   * One result.
   *
   * @param at when, in the unit of time, counted from anywhere
   * @param value what was found
   */
  public record Reading(double at, double value) {

    /** Refuses what is not finite with {@link IllegalArgumentException}. */
    public Reading {
      if (!(Double.isFinite(at) && Double.isFinite(value))) {
        throw new IllegalArgumentException("A trend is looked for among finite numbers.");
      }
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
  private final double factor;

  private Trend(List<Reading> readings, Limit limit, String time) {
    this.limit = limit;
    this.time = time;
    readings.forEach(each -> line.addData(each.at(), each.value()));
    middle = readings.stream().mapToDouble(Reading::at).average().orElseThrow();
    last = readings.stream().mapToDouble(Reading::at).max().orElseThrow();
    factor = Coverage.factor(readings.size() - 2);
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
    List<Forecast.Parameter> parameters =
        List.of(
            new Forecast.Parameter("slope", slope, line.getSlopeStdErr(), slopeUnit),
            new Forecast.Parameter("level", level, levelError(), limit.unit()));
    String course =
        "The slope is %s %s"
            .formatted(Rounding.of(slope, factor * line.getSlopeStdErr()), slopeUnit);
    String stand =
        "the level is %s, the limit %s %s"
            .formatted(Rounding.of(level), Rounding.of(limit.value()), limit.unit());
    boolean isTrend = Math.abs(slope) > factor * line.getSlopeStdErr();
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
    double variance = factor * factor * line.getMeanSquareError();
    double inclination = variance / line.getXSumSquares();
    double level = variance * (1 + 1.0 / line.getN());
    // The roots x = t - tm of (d + b x)² = level + inclination x².
    double divisor = slope * slope - inclination;
    double half = Math.sqrt(level * divisor + inclination * d * d) / divisor;
    double centre = middle - d * slope / divisor;
    double value = left(middle - d / slope);
    return new Forecast.Remaining(
        "time",
        value,
        Math.min(value, left(centre - half)),
        Math.max(value, left(centre + half)),
        time,
        limit.value());
  }

  private double left(double at) {
    return Math.max(0, at - last);
  }

  private double levelError() {
    double distance = last - middle;
    return Math.sqrt(
        line.getMeanSquareError()
            * (1.0 / line.getN() + distance * distance / line.getXSumSquares()));
  }
}
