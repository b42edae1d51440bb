package org.sapotrace.controlchart;

import java.util.EnumSet;
import java.util.SplittableRandom;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Judging results by all rules, an EWMA and a CUSUM, without the database. Times are for one result
 * of {@value #RESULTS}; the yardstick of the same run is {@link #baseline}, the same results sorted
 * by limits alone into beyond and not.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class JudgingBenchmark {

  private static final int RESULTS = 100_000;
  private static final ControlLimits LIMITS = new ControlLimits(32, 4, true);
  private static final Detectors ALL =
      new Detectors(EnumSet.allOf(RunRule.class), Ewma.DEFAULT, Cusum.USUAL);

  private final double[] results =
      new SplittableRandom(1)
          .doubles(RESULTS)
          .map(u -> 32 + 4 * Math.sqrt(2) * org.hipparchus.special.Erf.erfInv(2 * u - 1))
          .toArray();

  @Benchmark
  @OperationsPerInvocation(RESULTS)
  public int baseline() {
    int beyond = 0;
    for (double x : results) {
      if (x > LIMITS.upper() || x < LIMITS.floor(3)) {
        beyond++;
      }
    }
    return beyond;
  }

  /** The states alone. */
  @Benchmark
  @OperationsPerInvocation(RESULTS)
  public ChartState states() {
    ChartState state = ChartState.START;
    for (double x : results) {
      state = state.next(x, LIMITS, ALL);
    }
    return state;
  }

  /** The states, the rules that hold and the signals that go on. */
  @Benchmark
  @OperationsPerInvocation(RESULTS)
  public int judgements() {
    ChartState state = ChartState.START;
    int holding = 0;
    for (double x : results) {
      state = state.next(x, LIMITS, ALL);
      holding += state.holding(LIMITS, ALL).size() + state.signalling(ALL).size();
    }
    return holding;
  }
}
