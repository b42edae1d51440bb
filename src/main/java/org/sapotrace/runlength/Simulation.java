package org.sapotrace.runlength;

import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import org.sapotrace.measure.Rounding;

/**
 * Average run lengths from simulated results: runs are drawn until the standard error of their mean
 * is 1 % of it, or until so many results are drawn that an answer would take too long. The seed is
 * fixed, so that a question always has the same answer; it is the same at each shift, so that run
 * lengths at neighbouring shifts can be compared.
 */
final class Simulation {

  private static final long SEED = 1924;
  private static final int MOST_RESULTS = 12_000_000;
  private static final double WANTED_ERROR = 0.01;
  // Fewer runs say little about their own spread.
  private static final int LEAST_RUNS = 1000;
  // A run that is broken off counts with its results; with fewer whole runs that tells too little.
  private static final int LEAST_BEFORE_END = 100;

  private Simulation() {}

  /**
   * One average run length for each shift.
   *
   * @throws IllegalArgumentException where the design signals too rarely
   */
  static List<AverageRunLength> of(ChartDesign design, double... shifts) {
    AverageRunLength[] all = new AverageRunLength[shifts.length];
    long left = MOST_RESULTS;
    List<Integer> largestFirst =
        IntStream.range(0, shifts.length)
            .boxed()
            .sorted(Comparator.comparing(i -> -Math.abs(shifts[i])))
            .toList();
    for (int done = 0; done < shifts.length; done++) {
      // Large shifts are found soon, and leave their share to the small ones.
      int at = largestFirst.get(done);
      Drawn drawn = draw(design, shifts[at], left / (shifts.length - done));
      all[at] =
          new AverageRunLength(
              shifts[at], drawn.mean(), RunLengthMethod.SIMULATION, drawn.standardError());
      left -= drawn.results;
    }
    return Arrays.asList(all);
  }

  /** What was drawn: results, runs that ended with a signal, and their squared lengths. */
  private record Drawn(long results, int runs, double squares) {

    double mean() {
      return (double) results / runs;
    }

    double standardError() {
      return Math.sqrt(Math.max(0, squares / runs - mean() * mean()) / runs);
    }
  }

  private static Drawn draw(ChartDesign design, double shift, long most) {
    SplittableRandom random = new SplittableRandom(SEED);
    Drawn drawn = new Drawn(0, 0, 0);
    while (drawn.runs < LEAST_RUNS || drawn.standardError() > WANTED_ERROR * drawn.mean()) {
      SimulatedChart chart = new SimulatedChart(design);
      long length = 0;
      boolean signals = false;
      while (!signals && drawn.results + length < most) {
        length++;
        signals = chart.signals(shift + random.nextGaussian());
      }
      if (!signals) {
        return endedEarly(drawn, length);
      }
      drawn =
          new Drawn(
              drawn.results + length, drawn.runs + 1, drawn.squares + (double) length * length);
    }
    return drawn;
  }

  private static Drawn endedEarly(Drawn drawn, long length) {
    if (drawn.runs < LEAST_BEFORE_END) {
      throw new IllegalArgumentException(
          "This combination can only be simulated, and it signals too rarely for that: %d times in %s results. Ask for its parts one by one, which are computed exactly, or take narrower settings."
              .formatted(drawn.runs, Rounding.of((double) (drawn.results + length))));
    }
    return new Drawn(drawn.results + length, drawn.runs, drawn.squares);
  }
}
