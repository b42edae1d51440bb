package org.sapotrace.chartimage;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SplittableRandom;
import org.sapotrace.capability.Capability;
import org.sapotrace.capability.CapabilityChart;

/** Capabilities of every sort that a picture must bear, by name. */
final class SampleCapabilities {

  private static final Instant FIRST = Instant.parse("2026-03-02T06:00:00Z");

  private static final Map<String, CapabilityChart> ALL = make();

  private SampleCapabilities() {}

  static Map<String, CapabilityChart> all() {
    return ALL;
  }

  private static Map<String, CapabilityChart> make() {
    Map<String, CapabilityChart> charts = new LinkedHashMap<>();
    charts.put("capability-normal", madeNormal());
    charts.put("capability-skewed", madeSkewed());
    charts.put("capability-two-sided", of("Cpk 0.85", normal(200, 7), 20.0, 40.0));
    charts.put("capability-lower", of("Cpl 1.2", normal(60, 8), 18.0, null));
    charts.put("capability-far", of("Cpu 52", normal(45, 9), null, 662.0));
    charts.put("capability-tight", of("Cpk 0.1", normal(90, 10), 30.0, 32.0));
    charts.put("capability-many", of("Cpk 0.85", normal(5000, 11), 20.0, 66.2));
    charts.put("capability-negative", of("Cpk 1", shifted(normal(40, 12), -31.2), -14.0, 14.0));
    charts.put("capability-long-names", longNames());
    return charts;
  }

  static CapabilityChart normal() {
    return ALL.get("capability-normal");
  }

  static CapabilityChart skewed() {
    return ALL.get("capability-skewed");
  }

  private static CapabilityChart madeNormal() {
    return of("Cpu 3.1", normal(60, 6), null, 66.2);
  }

  private static CapabilityChart madeSkewed() {
    double[] values = Arrays.stream(normal(80, 13)).map(x -> Math.exp(x / 8 - 2)).toArray();
    return of("Cpu 0.9", values, null, 20.0);
  }

  private static CapabilityChart longNames() {
    CapabilityChart chart = madeNormal();
    return new CapabilityChart(
        "Soap after the second counter-current washing tower with the structured packing, line four"
            + " of the works beside the old harbour basin: Cpu 3.1 of 60 results, at least 2.5 with"
            + " 95 % confidence",
        "Line four of the works beside the old harbour basin, east of the tank farm",
        "after the second counter-current washing tower with the structured packing",
        chart.quantity(),
        chart.unit(),
        12,
        chart.from(),
        chart.to(),
        chart.lower(),
        chart.upper(),
        chart.values(),
        chart.capability());
  }

  private static CapabilityChart of(String index, double[] values, Double lower, Double upper) {
    Capability found = Capability.of(values, lower, upper, 0.95);
    return new CapabilityChart(
        "Soap after the tower, Harbour line: %s of %d results".formatted(index, values.length),
        "Harbour line",
        "after the tower",
        "soap",
        "mg/kg",
        2,
        FIRST,
        FIRST.plus(values.length, ChronoUnit.DAYS),
        lower,
        upper,
        Arrays.stream(values).boxed().toList(),
        found);
  }

  /** Normal results about 31.2 with a standard deviation of 3.9. */
  private static double[] normal(int n, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    double[] values = new double[n];
    Arrays.setAll(values, i -> 31.2 + 3.9 * random.nextGaussian());
    return values;
  }

  private static double[] shifted(double[] values, double by) {
    return Arrays.stream(values).map(x -> x + by).toArray();
  }
}
