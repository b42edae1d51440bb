package org.sapotrace.controlchart;

/**
 * What a tabular CUSUM needs to know of all results so far; see {@link Cusum}. A signal does not
 * reset it.
 *
 * @param high the sum upwards
 * @param low the sum downwards
 */
public record CusumState(Sum high, Sum low) {

  /**
   * One of the two sums.
   *
   * @param value C, in standard deviations, at least 0
   * @param length results in a row after which the sum was above 0
   * @param signal whether a signal goes on
   */
  public record Sum(double value, int length, boolean signal) {

    /** No shift is told from a larger one, and sums stay finite whatever is recorded. */
    private static final double MOST = 1e100;

    /**
     * Checks a sum that was stored.
     *
     * @throws IllegalArgumentException if numbers are out of range
     */
    public Sum {
      if (!(value >= 0 && value <= MOST && length >= 0)) {
        throw new IllegalArgumentException(
            "These numbers are not the state of a CUSUM. Evaluate the stream again from its first"
                + " result.");
      }
    }

    private Sum next(double z, Cusum cusum) {
      double grown = value + Math.max(-MOST, Math.min(MOST, z)) - cusum.reference();
      double next = Math.max(0, Math.min(MOST, grown));
      boolean goesOn = signal && next >= cusum.decision() / 2;
      return new Sum(next, next > 0 ? length + 1 : 0, next > cusum.decision() || goesOn);
    }
  }

  /** Before the first result under the limits in force. */
  static CusumState start(Cusum cusum) {
    Sum sum = new Sum(Math.min(cusum.headStart(), Sum.MOST), 0, false);
    return new CusumState(sum, sum);
  }

  /**
   * The state after one more finite result.
   *
   * @param limits of such a result: of means, those of its own size
   */
  CusumState next(double x, Cusum cusum, ControlLimits limits) {
    double z = limits.z(x);
    return new CusumState(high.next(z, cusum), low.next(-z, cusum));
  }
}
