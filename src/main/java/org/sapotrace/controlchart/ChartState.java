package org.sapotrace.controlchart;

import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What all that raises signals needs to know of all results so far: the same few numbers however
 * long the stream. New limits start afresh from {@link #START}.
 *
 * @param runs for the run rules
 * @param ewma for the moving average; null where there is none, and before its first result
 * @param cusum for the cumulative sum; null where there is none, and before its first result
 */
public record ChartState(RunState runs, @Nullable EwmaState ewma, @Nullable CusumState cusum) {

  /** Before the first result under the limits in force. */
  public static final ChartState START = new ChartState(RunState.START, null, null);

  /** The most results that the first window of a signal names. */
  public static final int MOST_IN_WINDOW = 100;

  /**
   * The state after one more single result; see {@link #next(double, int, ControlLimits,
   * Detectors)}.
   */
  public ChartState next(double x, ControlLimits limits, Detectors detectors) {
    return next(x, 1, limits, detectors);
  }

  /**
   * The state after one more result.
   *
   * @param x the result, or the mean of a subgroup; finite, in the unit of the limits
   * @param n how many values it is the mean of; 1 for a single result
   * @param limits the limits in force of single values, the same since {@link #START}
   * @param detectors what is in use, likewise
   * @throws IllegalArgumentException if the result is not finite
   */
  public ChartState next(double x, int n, ControlLimits limits, Detectors detectors) {
    ControlLimits own = limits.ofMeans(n);
    Ewma average = detectors.ewma();
    Cusum sums = detectors.cusum();
    RunState nextRuns = runs.next(x, own);
    return new ChartState(
        nextRuns,
        average == null
            ? null
            : Objects.requireNonNullElseGet(ewma, () -> EwmaState.start(limits))
                .next(x, n, average, limits),
        sums == null
            ? null
            : Objects.requireNonNullElseGet(cusum, () -> CusumState.start(sums))
                .next(x, sums, own));
  }

  /** The rules in use whose condition holds at the last result, in the order of all rules. */
  public Set<SignalRule> holding(ControlLimits limits, Detectors detectors) {
    Set<SignalRule> holding = new LinkedHashSet<>(runs.holding(detectors.rules()));
    Ewma average = detectors.ewma();
    if (average != null && ewma != null && ewma.beyond(average, limits) != null) {
      holding.add(DriftRule.EWMA_BEYOND_LIMITS);
    }
    Cusum sums = detectors.cusum();
    if (sums != null && cusum != null) {
      if (cusum.high().value() > sums.decision()) {
        holding.add(DriftRule.CUSUM_HIGH);
      }
      if (cusum.low().value() > sums.decision()) {
        holding.add(DriftRule.CUSUM_LOW);
      }
    }
    return holding;
  }

  /**
   * The rules in use whose signals go on at the last result, each with its side, in the order of
   * all rules. These are all that hold, and those of the moving average and the cumulative sum that
   * are not yet back under half their limit.
   */
  public Map<SignalRule, Side> signalling(Detectors detectors) {
    Map<SignalRule, Side> signalling = new LinkedHashMap<>();
    for (RunRule rule : detectors.rules()) {
      add(signalling, rule, runs.side(rule));
    }
    if (ewma != null) {
      add(signalling, DriftRule.EWMA_BEYOND_LIMITS, ewma.signalSide());
    }
    if (cusum != null) {
      add(signalling, DriftRule.CUSUM_HIGH, cusum.high().signal() ? Side.HIGH : null);
      add(signalling, DriftRule.CUSUM_LOW, cusum.low().signal() ? Side.LOW : null);
    }
    return signalling;
  }

  private static void add(Map<SignalRule, Side> signalling, SignalRule rule, @Nullable Side side) {
    if (side != null) {
      signalling.put(rule, side);
    }
  }

  /**
   * How many results up to the last one make up the pattern of a rule that holds: those a run rule
   * looks at; those since the moving average crossed the centre, or the sum rose from 0; from 1 to
   * {@value #MOST_IN_WINDOW}.
   *
   * <p>The last two are themselves estimates of when a shift began. Source: E. S. Page, as for
   * {@link Cusum}; T. Nishina, A comparison of control charts from the viewpoint of change-point
   * estimation, Quality and Reliability Engineering International 8 (1992) 537,
   * doi:10.1002/qre.4680080605.
   */
  public int window(SignalRule rule) {
    int length = rule instanceof RunRule run ? Math.min(run.span(), runs.count()) : gathered(rule);
    return Math.max(1, Math.min(MOST_IN_WINDOW, length));
  }

  private int gathered(SignalRule rule) {
    if (rule == DriftRule.EWMA_BEYOND_LIMITS) {
      return ewma == null ? 1 : Math.abs(ewma.sameSide());
    }
    if (cusum == null) {
      return 1;
    }
    return rule == DriftRule.CUSUM_HIGH ? cusum.high().length() : cusum.low().length();
  }
}
