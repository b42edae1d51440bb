package org.sapotrace.detection;

import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.jspecify.annotations.Nullable;
import org.sapotrace.attribution.Cause;
import org.sapotrace.controlchart.Side;

/**
 * One plant of two lines from its baseline over a quiet time into a drift on the first of them.
 *
 * @param cause of the drift in truth
 * @param failure the first batch of the drift that was found out of specification, from 0
 * @param signal the first batch of the drift with a signal that shows it, from 0
 * @param causes what was named when asked at the signal, some batches later, and at the failure
 */
record Detection(Cause cause, int failure, int signal, Map<Asked, Cause> causes) {

  /** So many results give a stream its limits. */
  static final int BASELINE = 45;

  /** In so many batches there are as many of what is titrated with every second one. */
  static final int BASELINE_BATCHES = 2 * BASELINE;

  static final int QUIET = 30;

  /** When the cause is asked for. */
  enum Asked {
    AT_THE_SIGNAL,
    FIVE_BATCHES_LATER,
    AT_THE_FAILURE
  }

  static Detection of(
      SimulatedLine.Spreads spreads, Drift drift, Watching watching, SplittableRandom random) {
    SimulatedLine line = new SimulatedLine(spreads, random);
    SimulatedLine other = new SimulatedLine(spreads, random);
    int drifting = 2 * drift.batches() + 20;
    Bench bench =
        new Bench(
            line.run(BASELINE_BATCHES, 0, null),
            line.run(QUIET, drifting, drift),
            other.run(BASELINE_BATCHES, 0, null),
            other.run(QUIET, drifting, drift.fault().isShared() ? drift : null));
    int failure = 0;
    while (failure < drifting && bench.washed(QUIET + failure) <= SimulatedLine.LIMIT) {
      failure++;
    }
    int signal = drifting;
    Charted signalling = null;
    for (Charted stream : Charted.showing(drift.fault())) {
      Side[] raised =
          watching.on(stream, stream.baseline(bench.baseline())).raised(stream.of(bench.found()));
      int first = Watch.first(raised, QUIET, stream.worse()) - QUIET;
      if (first < signal) {
        signal = first;
        signalling = stream;
      }
    }
    return new Detection(
        drift.fault().cause(),
        failure,
        signal,
        causes(bench, signalling, signal, failure, drifting));
  }

  private static Map<Asked, Cause> causes(
      Bench bench, @Nullable Charted signalling, int signal, int failure, int drifting) {
    Map<Asked, Cause> causes = new EnumMap<>(Asked.class);
    if (signalling != null) {
      causes.put(Asked.AT_THE_SIGNAL, bench.cause(signalling, QUIET + signal));
      int later = Math.min(signal + 5, drifting - 1);
      causes.put(Asked.FIVE_BATCHES_LATER, bench.cause(signalling, QUIET + later));
      int end = Math.min(Math.max(signal, failure), drifting - 1);
      causes.put(Asked.AT_THE_FAILURE, bench.cause(signalling, QUIET + end));
    }
    return causes;
  }

  /** How many batches before the first failure the drift was seen; none if not before it. */
  int warning() {
    return failure - signal;
  }

  boolean missed() {
    return signal >= failure;
  }

  /** Results that raise a signal while nothing is wrong, as a part of all results. */
  static Map<Charted, Double> falseAlarms(
      SimulatedLine.Spreads spreads, Watching watching, int plants, SplittableRandom random) {
    Map<Charted, Double> alarms = new EnumMap<>(Charted.class);
    for (int plant = 0; plant < plants; plant++) {
      SimulatedLine line = new SimulatedLine(spreads, random);
      SimulatedLine.Found quiet = line.run(BASELINE_BATCHES, 0, null);
      SimulatedLine.Found watched = line.run(10 * QUIET, 0, null);
      for (Charted stream : Charted.values()) {
        double[] results = stream.titrated(watched);
        Watch watch = watching.on(stream, stream.baseline(quiet));
        long raised = Watch.count(watch.raised(results));
        alarms.merge(stream, (double) raised / results.length / plants, Double::sum);
      }
    }
    return alarms;
  }
}
