package org.sapotrace.detection;

import java.util.EnumMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.sapotrace.attribution.Cause;
import org.sapotrace.controlchart.Side;

/**
 * Signals that chance raises while nothing is wrong, and whether a cause is named for them.
 *
 * @param signals how many
 * @param atTheSignal for how many one was named at once
 * @param later for how many five batches later
 */
record Chance(int signals, int atTheSignal, int later) {

  private static final int BATCHES = 100;
  private static final int LATER = 5;

  double named() {
    return (double) atTheSignal / signals;
  }

  double namedLater() {
    return (double) later / signals;
  }

  /** What the defaults raise on the streams of so many plants. */
  static Map<Charted, Chance> of(
      SimulatedLine.Spreads spreads, int plants, SplittableRandom random) {
    Map<Charted, Chance> chances = new EnumMap<>(Charted.class);
    for (int plant = 0; plant < plants; plant++) {
      SimulatedLine line = new SimulatedLine(spreads, random);
      SimulatedLine other = new SimulatedLine(spreads, random);
      Bench bench =
          new Bench(
              line.run(Detection.BASELINE_BATCHES, 0, null),
              line.run(BATCHES, 0, null),
              other.run(Detection.BASELINE_BATCHES, 0, null),
              other.run(BATCHES, 0, null));
      for (Charted stream : Charted.values()) {
        chances.merge(stream, on(bench, stream), Chance::plus);
      }
    }
    return chances;
  }

  private static Chance on(Bench bench, Charted stream) {
    Side[] raised =
        Detecting.DEFAULTS
            .on(stream, stream.baseline(bench.baseline()))
            .raised(stream.of(bench.found()));
    Chance chance = new Chance(0, 0, 0);
    for (int i = 0; i < raised.length - LATER; i++) {
      if (raised[i] != null) {
        chance =
            chance.plus(
                new Chance(
                    1,
                    isNamed(bench.cause(stream, i)) ? 1 : 0,
                    isNamed(bench.cause(stream, i + LATER)) ? 1 : 0));
      }
    }
    return chance;
  }

  private static boolean isNamed(Cause cause) {
    return cause != Cause.UNDECIDED && cause != Cause.MEASUREMENT;
  }

  private Chance plus(Chance other) {
    return new Chance(
        signals + other.signals, atTheSignal + other.atTheSignal, later + other.later);
  }
}
