package org.sapotrace.detection;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Side;

/** What might have become the defaults, each with limits of 3 sigma beside it. */
final class Attempts {

  private static final Ewma SLOW = new Ewma(0.1, 2.9);
  private static final Ewma SLOW_OF_REMOVAL = new Ewma(0.2, 2.9);

  private Attempts() {}

  static Map<String, Watching> all() {
    Map<String, Watching> all = new LinkedHashMap<>();
    all.put("washed fuel alone, EWMA 0.1, 2.9", onlyWashed(ewma(SLOW)));
    all.put("EWMA 0.1, 2.9", ewma(SLOW));
    all.put(
        "EWMA 0.1, 2.9, on removal 0.2, 2.9",
        (stream, baseline) ->
            ewma(stream == Charted.REMOVAL ? SLOW_OF_REMOVAL : SLOW).on(stream, baseline));
    all.put("the same with soap on logarithms", soapOnLogarithms());
    all.put("EWMA 0.2, 2.9", ewma(new Ewma(0.2, 2.9)));
    all.put("**EWMA 0.2, 2.7: the defaults**", Detecting.DEFAULTS);
    all.put("EWMA 0.2, 2.6", ewma(new Ewma(0.2, 2.6)));
    all.put("EWMA 0.3, 2.6", ewma(new Ewma(0.3, 2.6)));
    all.put("CUSUM 0.5, 4", charts(null, new Cusum(0.5, 4, 0)));
    all.put(
        "EWMA 0.2, 2.3 to the worse side, 3.2 to the other",
        sides(ewma(new Ewma(0.2, 2.3)), ewma(new Ewma(0.2, 3.2))));
    all.put("EWMA 0.25, 2.3 to the worse side only", sides(ewma(new Ewma(0.25, 2.3)), limits()));
    all.put(
        "CUSUM 0.5, 3.1 to the worse side only",
        sides(charts(null, new Cusum(0.5, 3.1, 0)), limits()));
    return all;
  }

  private static Watching limits() {
    return charts(null, null);
  }

  private static Watching ewma(Ewma ewma) {
    return charts(ewma, null);
  }

  private static Watching charts(@Nullable Ewma ewma, @Nullable Cusum cusum) {
    Detectors detectors = new Detectors(EnumSet.of(RunRule.BEYOND_LIMITS), ewma, cusum);
    return (stream, baseline) -> new ChartWatch(baseline, detectors);
  }

  private static Watching onlyWashed(Watching watching) {
    return (stream, baseline) ->
        stream == Charted.WASHED
            ? watching.on(stream, baseline)
            : results -> new Side[results.length];
  }

  /** A removal is a logarithm as it is, and a blank may be negative. */
  private static Watching soapOnLogarithms() {
    return (stream, baseline) -> {
      if (stream == Charted.REMOVAL || stream == Charted.BLANK) {
        return ewma(stream == Charted.REMOVAL ? SLOW_OF_REMOVAL : SLOW).on(stream, baseline);
      }
      Watch watch = ewma(SLOW).on(stream, logarithms(baseline));
      return results -> watch.raised(logarithms(results));
    };
  }

  private static double[] logarithms(double[] results) {
    return Arrays.stream(results).map(Math::log).toArray();
  }

  /** One way to watch the side to which a drift moves the stream, and another the other side. */
  private static Watching sides(Watching worse, Watching other) {
    return (stream, baseline) -> {
      Watch near = worse.on(stream, baseline);
      Watch far = other.on(stream, baseline);
      return results -> {
        Side[] raised = near.raised(results);
        Side[] beside = far.raised(results);
        for (int i = 0; i < raised.length; i++) {
          Side better = beside[i] == stream.worse() ? null : beside[i];
          raised[i] = raised[i] == stream.worse() ? raised[i] : better;
        }
        return raised;
      };
    };
  }
}
