package org.sapotrace.washmodel;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.hipparchus.stat.StatUtils;

/**
 * Tells which of the soaps that came to a wash or tower do not belong to those around them, as
 * where a digit was dropped.
 *
 * <p>By y = ln C_0, each is compared with the 7 around it, itself among them, in the order of
 * sampling: it strays where |y - median(y)| is above 3.5 * 1.4826 MAD, and above ln 5. MAD is the
 * median of |y - median(y)|, and 1.4826 MAD the standard deviation of a normal distribution. 3.5 is
 * that of B. Iglewicz and D. C. Hoaglin (NIST/SEMATECH e-Handbook 1.3.5.17). 7 and ln 5 are our
 * choice: a digit too few is a factor of 10, feeds of one plant seldom differ by 5, and what
 * differs for good, as from a new feed or from a tower in front that fills, is soon among its like.
 */
public final class Strays {

  private static final int AROUND = 7;
  private static final int FEWEST = 3;
  private static final double MOST_DEVIATIONS = 3.5;
  private static final double MAD_TO_DEVIATION = 1.4826;
  private static final double FLOOR = Math.log(5);
  private static final double MIDDLE = 50;

  /**
   * One that does not belong to the others.
   *
   * @param index among all
   * @param usual the median of those around it, in mg/kg
   */
  public record Stray(int index, double usual) {}

  private Strays() {}

  /**
   * Those that stray; none among fewer than 3.
   *
   * @param soap C_0 in mg/kg, above 0 each, in the order of sampling; what is below detection as
   *     the limit of detection, as factors tell nothing there
   */
  public static List<Stray> among(List<Double> soap) {
    double[] logs = soap.stream().mapToDouble(Math::log).toArray();
    List<Stray> strays = new ArrayList<>();
    for (int i = 0; i < logs.length && logs.length >= FEWEST; i++) {
      int first = Math.max(0, Math.min(i - AROUND / 2, logs.length - AROUND));
      double[] around =
          IntStream.range(first, Math.min(logs.length, first + AROUND))
              .mapToDouble(each -> logs[each])
              .toArray();
      double median = StatUtils.percentile(around, MIDDLE);
      double allowed =
          Math.max(FLOOR, MOST_DEVIATIONS * MAD_TO_DEVIATION * deviation(around, median));
      if (Math.abs(logs[i] - median) > allowed) {
        strays.add(new Stray(i, Math.exp(median)));
      }
    }
    return strays;
  }

  /** MAD. */
  private static double deviation(double[] around, double median) {
    return StatUtils.percentile(
        IntStream.range(0, around.length).mapToDouble(i -> Math.abs(around[i] - median)).toArray(),
        MIDDLE);
  }
}
