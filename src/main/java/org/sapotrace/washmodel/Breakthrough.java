package org.sapotrace.washmodel;

import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sapotrace.measure.Rounding;
import org.sapotrace.washmodel.WeightedPoints.Point;

/**
 * How much more a dry-wash tower takes until it lets through more soap than allowed.
 *
 * <p>C/C_0 = 1/(1 + exp(k (tau - V))), with the soap C behind and C_0 before the tower in mg/kg,
 * the throughput V since the bed was new, tau at which half of the soap comes through, and the rate
 * k. The models of Thomas (k = k_T C_0 dt/dV, tau = q_0/C_0), of Bohart and Adams (k = k_B C_0
 * dt/dV, tau = N_0/C_0) and of Yoon and Nelson (k = k_Y dt/dV) are this same curve: K. H. Chu,
 * Journal of Hazardous Materials 177 (2010) 1006.
 *
 * <p>Where the results tell of soap that leaks past the bed from its first day on, the same curve
 * stands above that leak b: C/C_0 = b + (1 - b)/(1 + exp(k (tau - V))).
 *
 * <p>k and tau, and b, are fitted to C/C_0 as it is ({@link CurveFit}). The linearised form
 * ln(C_0/C - 1) would be ruled by its tails, where the titration sees next to nothing. The limit L
 * is reached at V_L = tau - ln((C_0 - L)/(L - b C_0))/k with the mean C_0, unless another is to be
 * expected, and its interval is a profile: it is lopsided long before the breakthrough.
 *
 * <p>Soap taken up until V is C_0 rho ∫(1 - C/C_0) dV = C_0 rho (V - [ln(1 + exp(k (V - tau))) -
 * ln(1 + exp(-k tau))]/k); the bed's capacity is C_0 rho tau, with the density rho in kg/L.
 *
 * <p>Whatever the curve says, the limit is passed where the latest results lie above it, all of 3
 * running.
 */
public final class Breakthrough {

  /** At so many different throughputs there must be soap above detection. */
  public static final int FEWEST = 4;

  private static final int RUNNING = 3;

  /**
   * What was found behind a tower.
   *
   * @param throughput V since its bed was new, at least 0
   * @param outlet soap behind the tower in mg/kg; below detection it keeps its sign
   * @param inlet soap before it in mg/kg, above 0; null if nobody knows
   */
  public record Reading(double throughput, double outlet, @Nullable Double inlet) {

    /** Refuses what cannot be with {@link IllegalArgumentException}. */
    public Reading {
      if (!(throughput >= 0 && throughput < Double.POSITIVE_INFINITY && Double.isFinite(outlet))) {
        throw new IllegalArgumentException(
            "A reading behind a tower needs a throughput of at least 0 and the soap found.");
      }
      if (inlet != null && !(inlet > 0 && inlet < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("The soap before a tower is above 0: check the entry.");
      }
    }

    /** The soap before the tower, of a reading that has it. */
    double known() {
      return Objects.requireNonNull(inlet);
    }
  }

  /**
   * A tower, and what is asked of it.
   *
   * @param counted how its throughput is counted
   * @param limit of the soap behind it in mg/kg, above 0
   * @param detection limit of detection behind it in mg/kg, above 0
   * @param density of the fuel in kg/L, above 0
   * @param feed the soap before it from now on in mg/kg, above 0; null for what it was on average
   */
  public record Tower(
      Throughput counted, double limit, double detection, double density, @Nullable Double feed) {

    /** Refuses what is not above 0 and finite with {@link IllegalArgumentException}. */
    public Tower {
      if (!(limit > 0
          && detection > 0
          && density > 0
          && Double.isFinite(limit * detection * density))) {
        throw new IllegalArgumentException(
            "A tower needs a limit, a limit of detection and a density above 0.");
      }
      if (feed != null && !(feed > 0 && feed < Double.POSITIVE_INFINITY)) {
        throw new IllegalArgumentException("The soap before a tower is above 0: check the entry.");
      }
    }

    /** A tower before which the soap stays what it was on average. */
    public Tower(Throughput counted, double limit, double detection, double density) {
      this(counted, limit, detection, density, null);
    }

    private boolean isExceededBy(Reading reading) {
      return reading.outlet() > limit;
    }

    /** That the limit is passed, and by what that is seen. */
    Forecast passed(String model, List<Forecast.Parameter> parameters, String seen) {
      return new Forecast.Expected(
          model,
          parameters,
          Forecast.Remaining.none("throughput", counted.unit(), limit),
          "%s mg/kg come through already: %s.".formatted(Rounding.of(limit), seen));
    }

    boolean detects(Reading reading) {
      return reading.outlet() > detection;
    }

    /** C/C_0 of a reading. */
    Point point(Reading reading) {
      return Point.of(
          reading.throughput(), reading.outlet() / reading.known(), detection / reading.known());
    }
  }

  private Breakthrough() {}

  /**
   * What is to be expected of a tower.
   *
   * @param readings since its bed was new, in order of time
   */
  public static Forecast of(Tower tower, List<Reading> readings) {
    for (int i = 1; i < readings.size(); i++) {
      double before = readings.get(i - 1).throughput();
      double after = readings.get(i).throughput();
      if (after < before) {
        return new Forecast.Insufficient(
            ("The throughput goes back from %s to %s %s: the day on which the bed was changed is"
                    + " missing, or an entry is wrong.")
                .formatted(Rounding.of(before), Rounding.of(after), tower.counted().unit()));
      }
    }
    Forecast byCurve = byCurve(tower, readings);
    int count = readings.size();
    return count >= RUNNING
            && readings.subList(count - RUNNING, count).stream().allMatch(tower::isExceededBy)
        ? passed(tower, byCurve)
        : byCurve;
  }

  /** By the latest results, with what the curve tells of the bed, if anything. */
  private static Forecast passed(Tower tower, Forecast byCurve) {
    String seen = "the latest %d results lie above".formatted(RUNNING);
    if (byCurve instanceof Forecast.Expected expected) {
      return expected.remaining().value() == 0
          ? expected
          : tower.passed(expected.model(), expected.parameters(), seen);
    }
    return byCurve instanceof Forecast.NoTrend none
        ? tower.passed(none.model(), none.parameters(), seen)
        : tower.passed(BreakthroughFit.MODEL, List.of(), seen);
  }

  private static Forecast byCurve(Tower tower, List<Reading> readings) {
    List<Reading> complete = readings.stream().filter(each -> each.inlet() != null).toList();
    if (detected(tower, complete) < FEWEST) {
      return new Forecast.Insufficient(
          ("Needed are results above detection (%s mg/kg) at %d different throughputs, with the"
                  + " soap before the tower. There are %d, and %d of them have the soap before.")
              .formatted(
                  Rounding.of(tower.detection()),
                  FEWEST,
                  detected(tower, readings),
                  detected(tower, complete)));
    }
    double last = readings.get(readings.size() - 1).throughput();
    return Attempt.at(() -> new BreakthroughFit(tower, complete, last).forecast());
  }

  /** At how many different throughputs there is something above detection. */
  private static long detected(Tower tower, List<Reading> readings) {
    return readings.stream()
        .filter(tower::detects)
        .mapToDouble(Reading::throughput)
        .distinct()
        .count();
  }
}
