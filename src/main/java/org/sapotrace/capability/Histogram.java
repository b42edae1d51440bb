package org.sapotrace.capability;

import java.util.Arrays;
import java.util.Collections;
import java.util.List;
import org.hipparchus.stat.StatUtils;

/**
 * How many results lie in each of several classes of equal width. The width is that of Freedman and
 * Diaconis, 2 (X75 - X25) n^(-1/3), rounded to the nearest of 1, 2 and 5 times a power of ten, and
 * the classes begin at a multiple of it. Source: D. Freedman, P. Diaconis, On the histogram as a
 * density estimator: L2 theory, Zeitschrift für Wahrscheinlichkeitstheorie 57 (1981) 453,
 * doi:10.1007/BF01025868.
 *
 * @param start where the first class begins, inclusive
 * @param width of a class, above 0
 * @param counts how many results lie in each, the first and the last not empty; a class holds its
 *     beginning and not its end
 */
public record Histogram(double start, double width, List<Integer> counts) {

  private static final int MOST = 60;

  public Histogram {
    if (!(width > 0)) {
      throw new IllegalArgumentException("A class of a histogram has a width above 0.");
    }
    counts = List.copyOf(counts);
  }

  /**
   * The histogram of results.
   *
   * @param values at least 2 finite results, not all equal
   * @throws IllegalArgumentException for results that are all equal
   */
  public static Histogram of(double[] values) {
    double least = StatUtils.min(values);
    double span = StatUtils.max(values) - least;
    double middle = StatUtils.percentile(values, 75) - StatUtils.percentile(values, 25);
    // Half of the results may be equal; and a few far ones must not ask for a thousand classes.
    double wanted = Math.max(2 * middle / Math.cbrt(values.length), span / MOST);
    double width = round(wanted);
    double start = Math.floor(least / width) * width;
    int[] counts = new int[(int) Math.floor((least + span - start) / width) + 1];
    for (double value : values) {
      counts[Math.min(counts.length - 1, (int) Math.floor((value - start) / width))]++;
    }
    return new Histogram(start, width, Arrays.stream(counts).boxed().toList());
  }

  /** The nearest of 1, 2 and 5 times a power of ten, by ratio. */
  private static double round(double width) {
    double decade = Math.pow(10, Math.floor(Math.log10(width)));
    double mantissa = width / decade;
    double factor =
        mantissa < Math.sqrt(2)
            ? 1
            : mantissa < Math.sqrt(10) ? 2 : mantissa < Math.sqrt(50) ? 5 : 10;
    return factor * decade;
  }

  /** The highest count. */
  public int highest() {
    return Collections.max(counts);
  }
}
