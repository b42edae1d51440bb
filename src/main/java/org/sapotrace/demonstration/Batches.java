package org.sapotrace.demonstration;

/**
 * What the batches of a line truly hold, in mg/kg of soap. They spread by 13 % from one to the next
 * behind the wash, most of which is the feed's; how feed, wash and tower share it is an assumption.
 */
final class Batches {

  private static final double FEED = 0.11;
  private static final double WASH = 0.055;
  private static final double BED = 0.08;

  /** How many batches are in the tank at a time. */
  private static final int TANK = 3;

  private final double[] crude = new double[Days.COUNT];
  private final double[] washed = new double[Days.COUNT];
  private final double[] polished = new double[Days.COUNT];

  Batches(Product line) {
    Chance feed = new Chance(line + " feed");
    Chance wash = new Chance(line + " wash");
    Chance bed = new Chance(line + " bed");
    for (int day = 0; day < Days.COUNT; day++) {
      double left = line.washed() / line.crude() * (1 + fading(line, day));
      crude[day] = line.crude() * feed.factor(FEED);
      washed[day] = crude[day] * left * wash.factor(WASH);
      polished[day] = washed[day] * line.tower().letThrough(day) * bed.factor(BED);
    }
  }

  /** The wash that fades is that of the sodium line. */
  private static double fading(Product line, int day) {
    return line == Product.SODIUM ? Fault.WASH.ramp(day) : 0;
  }

  /** What a sample of a batch holds; in the tank it is the latest batches together. */
  double soap(Place place, int day) {
    return switch (place) {
      case CRUDE -> crude[day];
      case WASHED -> washed[day];
      case POLISHED -> polished[day];
      case STORED -> tank(day);
      case CHECK -> Titrating.CHECK_STANDARD;
      case BLANK, FLUSH ->
          throw new IllegalArgumentException("No batch is sampled at " + place.slug());
    };
  }

  private double tank(int day) {
    double sum = 0;
    int batches = 0;
    for (int each = Math.max(0, day - TANK + 1); each <= day; each++) {
      sum += polished[each];
      batches++;
    }
    return sum / batches;
  }
}
