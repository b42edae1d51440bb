package org.sapotrace.detection;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.SplittableRandom;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

/**
 * Limits and an EWMA to both sides by one who knows centre and sigma, since they come from so many
 * results that nothing is left to chance: what charts like those of the service could do at best.
 */
final class AllKnown implements Watching {

  /** With this one false alarm in 60 to 70 results is raised. */
  private static final Ewma EWMA = new Ewma(0.25, 2.3);

  private static final int MANY = 20_000;

  private final Map<Charted, Watch> streams = new EnumMap<>(Charted.class);

  AllKnown(SimulatedLine.Spreads spreads) {
    Detectors detectors = new Detectors(EnumSet.of(RunRule.BEYOND_LIMITS), EWMA, null);
    SimulatedLine.Found found =
        new SimulatedLine(spreads, new SplittableRandom(MANY)).run(MANY, 0, null);
    for (Charted stream : Charted.values()) {
      streams.put(stream, new ChartWatch(stream.titrated(found), detectors));
    }
  }

  @Override
  public Watch on(Charted stream, double[] baseline) {
    return streams.get(stream);
  }
}
