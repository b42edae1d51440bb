package org.sapotrace.detection;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.SplittableRandom;
import org.hipparchus.stat.StatUtils;
import org.sapotrace.controlchart.Side;

/**
 * What nobody can do much better than: a likelihood ratio between a ramp and none, by one who knows
 * how fast the ramp would be, and which way. With z_i the results in standard deviations from the
 * centre and m_k what the k-th batch of the ramp would add to them, it is the largest sum of m_k
 * z_i - m_k²/2 over all batches since one in which the ramp may have begun. A signal is raised
 * where it passes its threshold, and goes on until it is back under half of it, as on the charts;
 * the threshold is the one that raises one false alarm in 60 results.
 *
 * <p>Source: M. Basseville and I. V. Nikiforov, Detection of Abrupt Changes (1993), chapter 2 (from
 * memory).
 */
final class RampRatio implements Watching {

  private static final double FALSE_ALARMS = 1 / 60.0;
  private static final int LONGEST = 40;
  private static final int MANY = 20_000;
  private static final int PLANTS = 400;

  private final Map<Charted, Known> streams = new EnumMap<>(Charted.class);
  private final boolean isAllKnown;

  /**
   * For one kind of drift.
   *
   * @param isAllKnown whether centre and spread are known as well, and not taken from a baseline
   */
  RampRatio(SimulatedLine.Spreads spreads, Drift drift, boolean isAllKnown) {
    this.isAllKnown = isAllKnown;
    SplittableRandom random = new SplittableRandom(drift.batches());
    SimulatedLine.Found found = new SimulatedLine(spreads, random).run(MANY, 0, null);
    for (Charted stream : Charted.showing(drift.fault())) {
      double[] quiet = stream.of(found);
      Known known = new Known(stream, Normal.of(quiet), ramp(stream, drift, Normal.of(quiet)), 0);
      streams.put(stream, known.with(threshold(spreads, known, random)));
    }
  }

  /** Mean and standard deviation. */
  private record Normal(double mean, double sd) {

    static Normal of(double[] results) {
      return new Normal(StatUtils.mean(results), Math.sqrt(StatUtils.variance(results)));
    }
  }

  /** What is known of a stream, with m_k in standard deviations to its worse side. */
  private record Known(Charted stream, Normal normal, double[] ramp, double threshold) {

    Known with(double other) {
      return new Known(stream, normal, ramp, other);
    }

    double[] ratios(double[] results, Normal about) {
      int sign = stream.worse() == Side.HIGH ? 1 : -1;
      double[] ratios = new double[results.length];
      for (int last = 0; last < results.length; last++) {
        for (int first = Math.max(0, last - LONGEST + 1); first <= last; first++) {
          double sum = 0;
          for (int i = first; i <= last; i++) {
            double m = ramp[i - first];
            sum += m * sign * (results[i] - about.mean) / about.sd - m * m / 2;
          }
          ratios[last] = Math.max(ratios[last], sum);
        }
      }
      return ratios;
    }
  }

  /** A removal falls by the logarithm of what the others grow by. */
  private static double[] ramp(Charted stream, Drift drift, Normal quiet) {
    double[] ramp = new double[LONGEST];
    for (int k = 0; k < LONGEST; k++) {
      double growth = 1 + drift.at(k + 1) * (SimulatedLine.LIMIT / SimulatedLine.LEVEL - 1);
      double moved = stream == Charted.REMOVAL ? Math.log(growth) : (growth - 1) * quiet.mean;
      ramp[k] = moved / quiet.sd;
    }
    return ramp;
  }

  private double threshold(SimulatedLine.Spreads spreads, Known known, SplittableRandom random) {
    List<double[]> plants = new ArrayList<>();
    for (int plant = 0; plant < PLANTS; plant++) {
      SimulatedLine line = new SimulatedLine(spreads, random);
      double[] baseline = known.stream.baseline(line.run(Detection.BASELINE_BATCHES, 0, null));
      double[] quiet = known.stream.of(line.run(10 * Detection.QUIET, 0, null));
      plants.add(known.ratios(quiet, about(known, baseline)));
    }
    double low = 0;
    double high = 20;
    while (high - low > 0.01) {
      double middle = (low + high) / 2;
      long raised = plants.stream().mapToLong(r -> Watch.count(raised(r, middle, Side.HIGH))).sum();
      if (raised > FALSE_ALARMS * PLANTS * 10 * Detection.QUIET) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return high;
  }

  private Normal about(Known known, double[] baseline) {
    return isAllKnown ? known.normal : Normal.of(baseline);
  }

  private static Side[] raised(double[] ratios, double threshold, Side side) {
    Side[] raised = new Side[ratios.length];
    boolean isGoingOn = false;
    for (int i = 0; i < ratios.length; i++) {
      boolean goesOn = ratios[i] > threshold || (isGoingOn && ratios[i] >= threshold / 2);
      raised[i] = goesOn && !isGoingOn ? side : null;
      isGoingOn = goesOn;
    }
    return raised;
  }

  @Override
  public Watch on(Charted stream, double[] baseline) {
    Known known = streams.get(stream);
    return results ->
        raised(known.ratios(results, about(known, baseline)), known.threshold, stream.worse());
  }
}
