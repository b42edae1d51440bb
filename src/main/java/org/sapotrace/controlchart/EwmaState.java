package org.sapotrace.controlchart;

import org.jspecify.annotations.Nullable;

/**
 * What an EWMA needs to know of all results so far; see {@link Ewma}. A signal does not reset it.
 *
 * @param average z_i, in the unit of the results
 * @param power (1 - λ)^(2i), from 0 to 1; 0 once it is too small to move a limit
 * @param sameSide results in a row after which the average lay above the centre line, or below it
 *     and then negative
 * @param signal 1 while a signal above the centre goes on, -1 below, else 0
 * @param variance v_i, from 0 to 1; null while all results were single ones, whose power tells it
 */
public record EwmaState(
    double average, double power, int sameSide, int signal, @Nullable Double variance) {

  /** At less, 1 - power is 1 to the last digit of a double. */
  private static final double NEGLIGIBLE = 1e-20;

  /**
   * Checks a state that was stored.
   *
   * @throws IllegalArgumentException if numbers are out of range
   */
  public EwmaState {
    if (!(Double.isFinite(average)
        && power >= 0
        && power <= 1
        && sameSide != Integer.MIN_VALUE
        && Math.abs(signal) <= 1
        && (variance == null || (variance >= 0 && variance <= 1)))) {
      throw new IllegalArgumentException(
          "These numbers are not the state of an EWMA. Evaluate the stream again from its first"
              + " result.");
    }
  }

  /** Before the first result under the limits in force: the average is their centre. */
  static EwmaState start(ControlLimits limits) {
    return new EwmaState(limits.centre(), 1, 0, 0, null);
  }

  /**
   * The state after one more finite result.
   *
   * @param n of how many values it is the mean
   * @param limits of single values
   */
  EwmaState next(double x, int n, Ewma ewma, ControlLimits limits) {
    double kept = 1 - ewma.lambda();
    // Adding 0 makes 0 of a negative zero, which would not outlast being stored.
    double next = ewma.lambda() * x + kept * average + 0.0;
    double left = power * kept * kept;
    EwmaState state =
        new EwmaState(
            next,
            left < NEGLIGIBLE ? 0 : left,
            longer(sameSide, Double.compare(next, limits.centre() + 0.0)),
            signal,
            n == 1 && variance == null
                ? null
                : (Double) (ewma.lambda() * ewma.lambda() / n + kept * kept * ewma.variance(this)));
    return state.signalling(ewma, limits);
  }

  /** The side of its limits on which the average lies; null between them or on either. */
  @Nullable Side beyond(Ewma ewma, ControlLimits limits) {
    if (average > limits.centre() + ewma.reach(limits, this)) {
      return Side.HIGH;
    }
    return average < ewma.floor(limits, this) ? Side.LOW : null;
  }

  /** The side of the signal that goes on; null for none. */
  @Nullable Side signalSide() {
    return signal == 0 ? null : signal > 0 ? Side.HIGH : Side.LOW;
  }

  private EwmaState signalling(Ewma ewma, ControlLimits limits) {
    Side beyond = beyond(ewma, limits);
    double distance = signal * (average - limits.centre());
    boolean goesOn = signal != 0 && distance >= ewma.reach(limits, this) / 2;
    int next = beyond == Side.HIGH ? 1 : beyond == Side.LOW ? -1 : goesOn ? signal : 0;
    return new EwmaState(average, power, sameSide, next, variance);
  }

  private static int longer(int signedLength, int comparison) {
    int sign = Integer.signum(comparison);
    return Integer.signum(signedLength) == sign ? signedLength + sign : sign;
  }
}
