package org.sapotrace.detection;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.Function;
import java.util.stream.DoubleStream;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Side;

/**
 * One plant from its baseline over a quiet time into a drift, watched by some detectors.
 *
 * @param failure the first batch of the drift that was found out of specification, from 0
 * @param signal the first batch of the drift with a signal that shows it, from 0
 */
record Detection(int failure, int signal) {

  static final int BASELINE = 45;
  static final int QUIET = 30;

  /** What watches: a set for the removal stream, and one for all others. */
  enum Detecting {
    /** Limits of three standard deviations. */
    LIMITS_ALONE(limits(), limits()),
    /** What streams are watched by unless told otherwise. */
    DEFAULTS(Detectors.DEFAULT, Detectors.DEFAULT_OF_REMOVAL),
    /** All run rules, the EWMA and a CUSUM. */
    ALL_RULES(all(), all());

    private final Detectors usual;
    private final Detectors ofRemoval;

    Detecting(Detectors usual, Detectors ofRemoval) {
      this.usual = usual;
      this.ofRemoval = ofRemoval;
    }

    private static Detectors limits() {
      return new Detectors(EnumSet.of(RunRule.BEYOND_LIMITS), null, null);
    }

    private static Detectors all() {
      return new Detectors(EnumSet.allOf(RunRule.class), Ewma.DEFAULT, Cusum.USUAL);
    }

    Detectors of(Charted stream) {
      return stream == Charted.REMOVAL ? ofRemoval : usual;
    }
  }

  /** The streams of a line that are charted, and the side to which a drift moves them. */
  enum Charted {
    CRUDE(SimulatedLine.Found::crude, Side.HIGH),
    WASHED(SimulatedLine.Found::washed, Side.HIGH),
    REMOVAL(SimulatedLine.Found::removal, Side.LOW),
    CHECK_STANDARD(SimulatedLine.Found::check, Side.HIGH),
    BLANK(SimulatedLine.Found::blank, Side.HIGH);

    private final Function<SimulatedLine.Found, double[]> results;
    private final Side worse;

    Charted(Function<SimulatedLine.Found, double[]> results, Side worse) {
      this.results = results;
      this.worse = worse;
    }

    /** Where a drift shows first. */
    static EnumSet<Charted> showing(Fault fault) {
      return switch (fault) {
        case WASH -> EnumSet.of(WASHED, REMOVAL);
        case FEED -> EnumSet.of(CRUDE, WASHED);
        case TITRANT -> EnumSet.of(CRUDE, WASHED, CHECK_STANDARD);
        case BLANK -> EnumSet.of(WASHED, REMOVAL, CHECK_STANDARD, BLANK);
      };
    }
  }

  static Detection of(
      SimulatedLine.Spreads spreads, Drift drift, Detecting detecting, SplittableRandom random) {
    SimulatedLine line = new SimulatedLine(spreads, random);
    SimulatedLine.Found baseline = line.run(BASELINE, 0, null);
    int drifting = 2 * drift.batches() + 20;
    SimulatedLine.Found found = line.run(QUIET, drifting, drift);
    int signal = drifting;
    for (Charted stream : Charted.showing(drift.fault())) {
      Side[] raised = watch(baseline, stream, detecting).raised(stream.results.apply(found));
      signal = Math.min(signal, Watch.first(raised, QUIET, stream.worse) - QUIET);
    }
    int failure = 0;
    while (failure < drifting && found.washed()[QUIET + failure] <= SimulatedLine.LIMIT) {
      failure++;
    }
    return new Detection(failure, signal);
  }

  /** How many batches before the first failure the drift was seen; none if not before it. */
  int warning() {
    return failure - signal;
  }

  boolean missed() {
    return signal >= failure;
  }

  /** Signals for each result of each stream, while nothing is wrong. */
  static Map<Charted, Double> falseAlarms(
      SimulatedLine.Spreads spreads, Detecting detecting, int plants, SplittableRandom random) {
    Map<Charted, Double> share = new EnumMap<>(Charted.class);
    for (int plant = 0; plant < plants; plant++) {
      SimulatedLine line = new SimulatedLine(spreads, random);
      SimulatedLine.Found baseline = line.run(BASELINE, 0, null);
      SimulatedLine.Found found = line.run(10 * QUIET, 0, null);
      for (Charted stream : Charted.values()) {
        double[] results = sampled(stream.results.apply(found));
        long alarms = Watch.count(watch(baseline, stream, detecting).raised(results));
        share.merge(stream, (double) alarms / results.length / plants, Double::sum);
      }
    }
    return share;
  }

  private static Watch watch(SimulatedLine.Found baseline, Charted stream, Detecting detecting) {
    return Watch.on(sampled(stream.results.apply(baseline)), detecting.of(stream));
  }

  private static double[] sampled(double[] results) {
    return DoubleStream.of(results).filter(x -> !Double.isNaN(x)).toArray();
  }
}
