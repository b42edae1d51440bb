package org.sapotrace.detection;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hipparchus.stat.StatUtils;
import org.sapotrace.attribution.Attribution;
import org.sapotrace.attribution.Cause;
import org.sapotrace.attribution.Evidence;
import org.sapotrace.attribution.Evidence.Kind;
import org.sapotrace.attribution.Evidence.Place;

/**
 * What the bench of a simulated plant knows: two lines that share the titrant.
 *
 * @param baseline of the line in question, from which its limits come
 * @param found on it since
 */
record Bench(
    SimulatedLine.Found baseline,
    SimulatedLine.Found found,
    SimulatedLine.Found baselineOfOther,
    SimulatedLine.Found foundOfOther) {

  private static final double BATCHES_A_DAY = 2;
  private static final double OF_CRUDE =
      SimulatedLine.K / (SimulatedLine.CRUDE_SAMPLE_G * SimulatedLine.CRUDE);
  private static final double OF_WASHED =
      SimulatedLine.K / (SimulatedLine.WASHED_SAMPLE_G * SimulatedLine.LEVEL);
  private static final double OF_CHECK =
      SimulatedLine.K / (SimulatedLine.CHECK_SAMPLE_G * SimulatedLine.CHECK_STANDARD);

  double washed(int batch) {
    return found.washed()[batch];
  }

  /** The cause of a stream's shift, by all that is known up to a batch. */
  Cause cause(Charted stream, int batch) {
    Evidence crude = logs(Kind.CRUDE, "a", OF_CRUDE, baseline.crude(), found.crude(), batch);
    Evidence removal = removal("a", baseline, found, batch);
    Evidence check =
        logs(Kind.CHECK_STANDARD, "", OF_CHECK, baseline.check(), found.check(), batch);
    Evidence blank = values(Kind.BLANK, "", 0, baseline.blank(), found.blank(), batch);
    List<Evidence> all =
        List.of(
            crude,
            removal,
            check,
            blank,
            logs(Kind.STANDARDISATION, "", 0, baseline.normality(), found.normality(), batch),
            logs(Kind.CRUDE, "b", OF_CRUDE, baselineOfOther.crude(), foundOfOther.crude(), batch),
            removal("b", baselineOfOther, foundOfOther, batch));
    Evidence shifted =
        switch (stream) {
          case CRUDE -> crude;
          case WASHED ->
              logs(Kind.WASHED, "a", OF_WASHED, baseline.washed(), found.washed(), batch);
          case REMOVAL -> removal;
          case CHECK_STANDARD -> check;
          case BLANK -> blank;
        };
    int quiet = stream.titrated(baseline).length;
    return Attribution.of(shifted, quiet, all, measurement(stream)).cause();
  }

  private static double measurement(Charted stream) {
    SimulatedLine.Spreads spreads = SimulatedLine.Spreads.USUAL;
    return switch (stream) {
      case CRUDE -> spreads.crude();
      case WASHED -> spreads.washed();
      case REMOVAL -> Math.hypot(spreads.crude(), spreads.washed());
      case CHECK_STANDARD -> spreads.check();
      case BLANK -> spreads.blankMl();
    };
  }

  private static Evidence removal(
      String line, SimulatedLine.Found before, SimulatedLine.Found since, int batch) {
    return values(
        Kind.REMOVAL, line, OF_WASHED - OF_CRUDE, before.removal(), since.removal(), batch);
  }

  private static Evidence logs(
      Kind kind, String line, double blankEffect, double[] before, double[] since, int batch) {
    return values(kind, line, blankEffect, logs(before), logs(since), batch);
  }

  private static double[] logs(double[] values) {
    double[] logs = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      logs[i] = Math.log(values[i]);
    }
    return logs;
  }

  /** The scatter is that of the baseline. */
  private static Evidence values(
      Kind kind, String line, double blankEffect, double[] before, double[] since, int batch) {
    Map<String, Integer> titrants = titrants(kind);
    List<Evidence.Result> results = new ArrayList<>();
    for (int i = 0; i < before.length; i++) {
      add(results, i - before.length, before[i], titrants);
    }
    double sigma =
        Math.sqrt(
            StatUtils.variance(results.stream().mapToDouble(Evidence.Result::value).toArray()));
    for (int i = 0; i <= batch; i++) {
      add(results, i, since[i], titrants);
    }
    Place place = line.isEmpty() ? Place.NONE : new Place(line, "washed");
    return new Evidence(kind, place, blankEffect, results, sigma);
  }

  private static void add(
      List<Evidence.Result> results, int batch, double value, Map<String, Integer> titrants) {
    if (!Double.isNaN(value)) {
      results.add(new Evidence.Result(batch / BATCHES_A_DAY, value, titrants));
    }
  }

  /** Both lines share one lot. */
  private static Map<String, Integer> titrants(Kind kind) {
    return switch (kind) {
      case BLANK, REMOVAL -> Map.of();
      case STANDARDISATION -> Evidence.Result.strengthOf("lot");
      default -> Evidence.Result.titratedWith("lot");
    };
  }
}
