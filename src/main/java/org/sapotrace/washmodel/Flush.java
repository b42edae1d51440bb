package org.sapotrace.washmodel;

import java.util.List;
import org.hipparchus.stat.regression.SimpleRegression;
import org.sapotrace.measure.Rounding;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * How much more methanol a tower takes until it is clean.
 *
 * <p>C = C_inf + (C_1 - C_inf) exp(-(V - V_1)/V_h), with the soap C in the methanol that leaves the
 * tower in mg/kg, C_1 at the first sample, after the volume V_1, the tail C_inf, at least 0, that
 * no volume gets below, and the hold-up V_h: a well-stirred vessel that is washed out. Source: O.
 * Levenspiel, Chemical Reaction Engineering, 3rd edition (1999), chapter 14 (from memory). It takes
 * ln 20 = 3.0 hold-ups to 5 % of what is above the tail, and ln 100 = 4.6 to 1 %.
 *
 * <p>The level L is reached at V_1 + V_h ln((C_1 - C_inf)/(L - C_inf)), whose interval is a profile
 * ({@link CurveFit}); it has no upper end where the tail may as well lie at L. Where the tail lies
 * above L, more of the same does not clean. Clean is who was at or below L on two samples running.
 */
public final class Flush {

  /** At so many different volumes there must be soap above detection. */
  public static final int FEWEST = 5;

  /** So many samples running have to lie within the level. */
  public static final int RUNNING = 2;

  static final String MODEL = "wash-out: C = C_inf + (C_1 - C_inf) exp(-(V - V_1)/V_h)";

  /**
   * One sample of the methanol that leaves the tower.
   *
   * @param volume V that went through since the flush began, at least 0
   * @param soap C in mg/kg; below detection it keeps its sign
   */
  public record Reading(double volume, double soap) {

    /** Refuses what cannot be with {@link IllegalArgumentException}. */
    public Reading {
      if (!(volume >= 0 && volume < Double.POSITIVE_INFINITY && Double.isFinite(soap))) {
        throw new IllegalArgumentException(
            "A sample of a flush needs a volume of at least 0 and the soap found.");
      }
    }
  }

  /**
   * What is asked of a flush.
   *
   * @param counted how its volume is counted
   * @param level L at which it is clean, in mg/kg, above 0
   * @param detection limit of detection in mg/kg, above 0
   */
  public record Aim(Throughput counted, double level, double detection) {

    /** Refuses what is not above 0 and finite with {@link IllegalArgumentException}. */
    public Aim {
      if (!(level > 0 && detection > 0 && Double.isFinite(level * detection))) {
        throw new IllegalArgumentException(
            "A flush needs a level at which it is clean and a limit of detection, both above 0.");
      }
    }

    private boolean isMetBy(double soap) {
      return soap <= level;
    }

    private boolean detects(Reading reading) {
      return reading.soap() > detection;
    }

    Point point(Reading reading) {
      return Point.of(reading.volume(), reading.soap(), detection);
    }
  }

  private Flush() {}

  /**
   * What is to be expected of a flush.
   *
   * @param readings since it began, in order of time
   * @param found the soap in all samples since it began, in order of time: those of the readings,
   *     and those that do not say what had gone through
   */
  public static Forecast of(Aim aim, List<Reading> readings, List<Double> found) {
    int count = readings.size();
    for (int i = 1; i < count; i++) {
      double before = readings.get(i - 1).volume();
      double after = readings.get(i).volume();
      if (after < before) {
        return new Forecast.Insufficient(
            "The volume goes back from %s to %s %s: another flush began, or an entry is wrong."
                .formatted(Rounding.of(before), Rounding.of(after), aim.counted().unit()));
      }
    }
    int samples = found.size();
    if (samples >= RUNNING
        && found.subList(samples - RUNNING, samples).stream().allMatch(aim::isMetBy)) {
      return new Forecast.Expected(
          MODEL,
          List.of(),
          new Forecast.Remaining("volume", 0, 0, 0, aim.counted().unit(), aim.level()),
          "Clean: %d samples running lie within %s mg/kg. A flush does not restore exchange sites."
              .formatted(RUNNING, Rounding.of(aim.level())));
    }
    long detected =
        readings.stream().filter(aim::detects).mapToDouble(Reading::volume).distinct().count();
    if (detected < FEWEST) {
      return new Forecast.Insufficient(
          "Needed are samples above detection (%s mg/kg) at %d different volumes; there are %d."
              .formatted(Rounding.of(aim.detection()), FEWEST, detected));
    }
    if (!isFalling(aim, readings)) {
      return new Forecast.NoTrend(
          MODEL, List.of(), "The soap in the methanol does not fall for certain.");
    }
    return Attempt.at(() -> new FlushFit(aim, readings).forecast());
  }

  /** By the straight line through ln C, with what is below detection at its limit. */
  private static boolean isFalling(Aim aim, List<Reading> readings) {
    SimpleRegression line = new SimpleRegression();
    for (Reading each : readings) {
      line.addData(each.volume(), Math.log(Math.max(each.soap(), aim.detection())));
    }
    double half = Coverage.factor(readings.size() - 2) * line.getSlopeStdErr();
    return line.getSlope() + half < 0;
  }
}
