package org.sapotrace.chartimage;

import static org.sapotrace.controlchart.RunRule.BEYOND_LIMITS;
import static org.sapotrace.controlchart.RunRule.EIGHT_SAME_SIDE;
import static org.sapotrace.controlchart.RunRule.FOUR_OF_FIVE_BEYOND_1S;
import static org.sapotrace.controlchart.RunRule.SIX_TRENDING;
import static org.sapotrace.controlchart.RunRule.TWO_OF_THREE_BEYOND_2S;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Kind;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.DriftRule;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Subgroup;

/** Charts of every sort that a picture must bear, by name. */
final class SampleCharts {

  private static final ControlLimits TOWER = new ControlLimits(31.2, 3.9, true);

  private SampleCharts() {}

  static Map<String, ControlChart> all() {
    Map<String, ControlChart> charts = new LinkedHashMap<>();
    charts.put("in-control", new SampleChart().normal(36, 31.2, 3.9, 1).build());
    charts.put("beyond", beyond());
    charts.put("drifting", drifting());
    charts.put("two-phases", twoPhases());
    charts.put("trial", trial());
    charts.put("no-limits", noLimits());
    charts.put("moving-range", movingRange());
    charts.put("ewma", ewma());
    charts.put("ewma-two-phases", ewmaTwoPhases());
    charts.put("ewma-many", ewmaMany());
    charts.put("ewma-one-point", drift(Kind.EWMA).gathered(TOWER, 33).build());
    charts.put("cusum", cusum());
    charts.put("cusum-both", cusumBoth());
    charts.put("cusum-one-point", drift(Kind.CUSUM).gathered(TOWER, 33).build());
    charts.put("watched", watched());
    charts.put("log-scale", logScale());
    charts.put("mean", mean());
    charts.put("mean-unequal", unequal(Kind.MEAN));
    charts.put("mean-two-phases", meanTwoPhases());
    charts.put("range", range());
    charts.put("range-unequal", unequal(Kind.RANGE));
    charts.put("standard-deviation", deviations());
    charts.put("standard-deviation-unequal", unequal(Kind.STANDARD_DEVIATION));
    charts.put("mean-many-unequal", manyUnequal(400));
    charts.put("mean-hundred-unequal", manyUnequal(110));
    charts.put("ewma-unequal", unequal(Kind.EWMA));
    charts.put("one-point", onePoint());
    charts.put("two-points", new SampleChart().points(30.1, 33.7).build());
    charts.put("empty", empty());
    charts.put("far-specification", farSpecification());
    charts.put("many", many());
    charts.put("long-names", longNames());
    charts.put("every-rule", everyRule());
    charts.put("under-a-limit", underALimit());
    charts.put("close-limits", closeLimits());
    charts.put("five-thousand", fiveThousand());
    charts.put("huge", extreme(4.3e9, 2e7));
    charts.put("tiny", extreme(3.2e-9, 4e-10));
    charts.put("negative", extreme(-12, 2));
    charts.put("all-equal", allEqual());
    charts.put("hours", hours());
    charts.put("years", years());
    charts.put("below-detection", belowDetection());
    charts.put("scripts", scripts());
    charts.put("change", change());
    charts.put("happenings", happenings());
    charts.put("events-close", eventsClose());
    charts.put("changed-before", changedBefore());
    charts.put("withdrawn", withdrawn());
    return charts;
  }

  static ControlChart beyond() {
    return new SampleChart()
        .headline("Soap after the tower, harbour line: two results beyond the upper control limit")
        .uncertainty(1.6)
        .normal(14, 31.2, 3.9, 2)
        .point(46.8, BEYOND_LIMITS)
        .normal(6, 31.2, 3.9, 3)
        .point(44.1, BEYOND_LIMITS, TWO_OF_THREE_BEYOND_2S)
        .normal(4, 31.2, 3.9, 4)
        .build();
  }

  static ControlChart drifting() {
    SampleChart chart =
        new SampleChart()
            .headline("Soap after the tower, harbour line: drifting up since 14 March")
            .rules(EnumSet.range(BEYOND_LIMITS, EIGHT_SAME_SIDE))
            .normal(12, 31.2, 2.5, 5)
            .points(31.9, 32.8, 33.5, 34.9, 35.8);
    chart.point(36.6, SIX_TRENDING).point(37.9, SIX_TRENDING, FOUR_OF_FIVE_BEYOND_1S);
    chart.point(
        39.5, SIX_TRENDING, TWO_OF_THREE_BEYOND_2S, FOUR_OF_FIVE_BEYOND_1S, EIGHT_SAME_SIDE);
    return chart
        .point(40.8, SIX_TRENDING, TWO_OF_THREE_BEYOND_2S, FOUR_OF_FIVE_BEYOND_1S, EIGHT_SAME_SIDE)
        .point(43.9, BEYOND_LIMITS, SIX_TRENDING, EIGHT_SAME_SIDE)
        .point(47.2, BEYOND_LIMITS, SIX_TRENDING, EIGHT_SAME_SIDE)
        .build();
  }

  static ControlChart twoPhases() {
    return new SampleChart()
        .headline("Soap after the tower, harbour line: lower since the tower was repacked")
        .normal(22, 31.2, 3.9, 6)
        .limits(2, "adopted", 13.1, 20.5, 27.9)
        .normal(20, 20.5, 2.4, 7)
        .point(28.8, BEYOND_LIMITS)
        .build();
  }

  private static ControlChart trial() {
    return new SampleChart()
        .headline("Soap after drying, north line: trial limits from the first 20 results")
        .names("North line", "after drying")
        .limits(1, "trial", null, 12.4, 24.9)
        .specification(null, 41.0)
        .rules(Set.of(BEYOND_LIMITS))
        .normal(20, 12.4, 4.1, 8)
        .build();
  }

  private static ControlChart noLimits() {
    return new SampleChart()
        .headline("Soap after the tower, harbour line: 9 results, too few for limits")
        .noLimits()
        .normal(9, 31.2, 3.9, 9)
        .build();
  }

  static ControlChart movingRange() {
    SplittableRandom random = new SplittableRandom(10);
    SampleChart chart =
        new SampleChart()
            .kind(Kind.MOVING_RANGE)
            .headline("Moving range of soap after the tower, harbour line: steady")
            .limits(1, "adopted", null, 4.4, 14.4)
            .point(Double.NaN);
    for (int i = 0; i < 30; i++) {
      chart.point(Math.abs(5.5 * random.nextGaussian()));
    }
    return chart.build();
  }

  private static SampleChart drift(Kind kind) {
    return new SampleChart()
        .kind(kind)
        .ewma(kind == Kind.CUSUM ? null : new Ewma(0.1, 2.9))
        .cusum(kind == Kind.EWMA ? null : new Cusum(0.5, 5, 2.5));
  }

  /** About a centre of 31.2 with a standard deviation of 3.9, moved by so many of these. */
  private static double[] shifted(int n, double shift, long seed) {
    SplittableRandom random = new SplittableRandom(seed);
    return IntStream.range(0, n)
        .mapToDouble(i -> 31.2 + 3.9 * (shift + random.nextGaussian()))
        .toArray();
  }

  static ControlChart ewma() {
    return drift(Kind.EWMA)
        .headline("Soap after the tower, harbour line: moving average above its limit since 21 Mar")
        .gathered(TOWER, join(shifted(20, 0, 40), shifted(14, 1.2, 41)))
        .build();
  }

  private static ControlChart ewmaTwoPhases() {
    SampleChart chart =
        drift(Kind.EWMA)
            .headline("Soap after the tower, harbour line: moving average within its limits")
            .gathered(TOWER, shifted(26, 0, 42))
            .limits(2, "adopted", null, null, null);
    double[] lower = shifted(24, -1, 43);
    return chart.gathered(new ControlLimits(27.3, 3.9, true), lower).build();
  }

  private static ControlChart ewmaMany() {
    return drift(Kind.EWMA)
        .headline(
            "Soap after the tower, harbour line: moving average beyond its limit at 61 of 600")
        .from("2025-09-20T06:00:00Z", Duration.ofHours(8))
        .gathered(TOWER, join(shifted(300, 0, 44), shifted(60, 0.9, 45), shifted(240, 0, 46)))
        .build();
  }

  static ControlChart cusum() {
    return drift(Kind.CUSUM)
        .headline("Soap after the tower, harbour line: cumulative sum above its decision value")
        .gathered(TOWER, join(shifted(20, 0, 40), shifted(14, 1.2, 41)))
        .build();
  }

  static ControlChart cusumBoth() {
    double[] values =
        join(shifted(12, 0, 47), shifted(8, 1.7, 48), shifted(6, -1, 49), shifted(9, -1.8, 50));
    return drift(Kind.CUSUM)
        .headline("Soap after the tower, harbour line: cumulative sum below its decision value")
        .gathered(TOWER, values)
        .build();
  }

  /** A chart of the results that is watched by all there is. */
  static ControlChart watched() {
    return drift(Kind.INDIVIDUALS)
        .rules(RunRule.WESTERN_ELECTRIC_1956)
        .specification(null, 66.2)
        .headline("Soap after the tower, harbour line: out of control since 14 March")
        .normal(12, 31.2, 3.0, 5)
        .point(37.2, DriftRule.EWMA_BEYOND_LIMITS)
        .point(39.9, DriftRule.EWMA_BEYOND_LIMITS, DriftRule.CUSUM_HIGH)
        .point(44.1, BEYOND_LIMITS, DriftRule.EWMA_BEYOND_LIMITS, DriftRule.CUSUM_HIGH)
        .point(20.1, DriftRule.CUSUM_LOW)
        .points(28, 30.3)
        .build();
  }

  /** Skewed results under limits of their logarithms, and one that has none. */
  static ControlChart logScale() {
    SampleChart chart =
        new SampleChart()
            .headline("Soap after drying, north line: one result without a logarithm")
            .names("North line", "after drying")
            .scale(Scale.LOG)
            .limits(2, "adopted", 4.7, 12.4, 32.7)
            .specification(null, 41.0)
            .rules(Set.of(BEYOND_LIMITS))
            .ewma(new Ewma(0.1, 2.9));
    SplittableRandom random = new SplittableRandom(51);
    for (int i = 0; i < 36; i++) {
      if (i == 24) {
        chart.point(0, BEYOND_LIMITS);
      } else {
        chart.point(12.4 * Math.exp(0.33 * random.nextGaussian()));
      }
    }
    return chart.build();
  }

  /** Subgroups of sizes that come round, about a centre of 31.2 with a sigma of 3.9. */
  private static List<Subgroup> subgroups(int n, double shift, long seed, int... sizes) {
    SplittableRandom random = new SplittableRandom(seed);
    return IntStream.range(0, n)
        .mapToObj(
            i ->
                new Subgroup(
                    Stream.generate(() -> 31.2 + 3.9 * (shift + random.nextGaussian()))
                        .limit(sizes[i % sizes.length])
                        .toList()))
        .toList();
  }

  private static SampleChart ofSubgroups(Kind kind) {
    return new SampleChart()
        .kind(kind)
        .rules(kind == Kind.EWMA ? Set.of() : EnumSet.range(BEYOND_LIMITS, EIGHT_SAME_SIDE))
        .ewma(kind == Kind.MEAN || kind == Kind.EWMA ? new Ewma(0.1, 2.9) : null);
  }

  static ControlChart mean() {
    List<Subgroup> subgroups = new ArrayList<>(subgroups(24, 0, 60, 5));
    subgroups.addAll(subgroups(8, 0.8, 61, 5));
    return ofSubgroups(Kind.MEAN)
        .headline("Soap after the tower, harbour line: out of control since 27 Mar")
        .specification(null, 44.0)
        .subgroups(TOWER, subgroups)
        .build();
  }

  static ControlChart unequal(Kind kind) {
    String what = kind.label().toLowerCase(Locale.ROOT);
    List<Subgroup> subgroups = new ArrayList<>(subgroups(30, 0, 62, 3, 3, 5, 5, 5, 2, 8, 8, 1, 5));
    subgroups.set(21, new Subgroup(List.of(26.0, 43.2, 51.4, 38.8, 30.7)));
    return ofSubgroups(kind)
        .headline("Soap after the tower, harbour line: %s of every load".formatted(what))
        .subgroups(TOWER, subgroups)
        .build();
  }

  private static ControlChart meanTwoPhases() {
    return ofSubgroups(Kind.MEAN)
        .headline("Soap after the tower, harbour line: lower since the tower was repacked")
        .subgroups(TOWER, subgroups(18, 0, 63, 4))
        .limits(2, "adopted", null, null, null)
        .subgroups(new ControlLimits(25, 2.9, true), subgroups(18, -1.6, 64, 4, 4, 4, 3))
        .build();
  }

  static ControlChart range() {
    return ofSubgroups(Kind.RANGE)
        .headline("Soap after the tower, harbour line: no range above its control limit")
        .subgroups(TOWER, subgroups(32, 0, 60, 5))
        .build();
  }

  static ControlChart deviations() {
    return ofSubgroups(Kind.STANDARD_DEVIATION)
        .headline("Soap after the tower, harbour line: no deviation beyond its control limits")
        .subgroups(TOWER, subgroups(32, 0, 65, 10))
        .build();
  }

  static ControlChart manyUnequal(int n) {
    return ofSubgroups(Kind.MEAN)
        .headline("Soap after the tower, harbour line: %d loads".formatted(n))
        .from("2025-09-20T06:00:00Z", Duration.ofHours(8))
        .subgroups(TOWER, subgroups(n, 0, 66, 2, 5, 3, 7, 4, 4, 1))
        .build();
  }

  private static double[] join(double[]... parts) {
    return Arrays.stream(parts).flatMapToDouble(Arrays::stream).toArray();
  }

  private static ControlChart onePoint() {
    return new SampleChart()
        .headline("Soap after the tower, harbour line: one result")
        .noLimits()
        .point(31.2)
        .build();
  }

  private static ControlChart empty() {
    return new SampleChart()
        .headline("Soap after the tower, harbour line: no results yet")
        .noLimits()
        .build();
  }

  static ControlChart farSpecification() {
    return new SampleChart().specification(null, 662.0).normal(25, 31.2, 3.9, 11).build();
  }

  private static ControlChart many() {
    SampleChart chart =
        new SampleChart()
            .from("2025-09-20T06:00:00Z", Duration.ofHours(8))
            .normal(240, 31.2, 3.6, 12);
    return chart
        .point(45.2, BEYOND_LIMITS)
        .normal(250, 31.2, 3.6, 13)
        .point(17.7, BEYOND_LIMITS)
        .build();
  }

  static ControlChart longNames() {
    return new SampleChart()
        .headline(
            "Soap after the second counter-current washing tower with the structured packing, line"
                + " four of the works beside the old harbour basin: nothing has changed since the"
                + " limits were adopted")
        .names(
            "Line four of the works beside the old harbour basin, east of the tank farm",
            "after the second counter-current washing tower with the structured packing")
        .rules(EnumSet.allOf(RunRule.class))
        .normal(30, 31.2, 3.9, 14)
        .build();
  }

  static ControlChart everyRule() {
    SampleChart chart = new SampleChart().rules(EnumSet.allOf(RunRule.class));
    SplittableRandom random = new SplittableRandom(15);
    for (int i = 0; i < 45; i++) {
      RunRule[] all = RunRule.values();
      double value = 31.2 + 4.5 * random.nextGaussian();
      if (i % 5 == 4) {
        chart.point(value, all[(i / 5) % all.length], all[(i / 3) % all.length]);
      } else {
        chart.point(value);
      }
    }
    return chart.build();
  }

  /** Up and down so closely that beside a result near the limit there is little room. */
  static ControlChart underALimit() {
    SampleChart chart = new SampleChart();
    for (int i = 0; i < 60; i++) {
      if (i % 10 == 4) {
        chart.point(38.2 + i / 30.0, SIX_TRENDING);
      } else {
        chart.point(i % 2 == 0 ? 38 : 27);
      }
    }
    return chart.build();
  }

  static ControlChart closeLimits() {
    return new SampleChart()
        .limits(3, "adopted", 30.9, 31.2, 31.5)
        .specification(10.0, 32.0)
        .normal(30, 31.2, 0.1, 16)
        .build();
  }

  static ControlChart fiveThousand() {
    SampleChart chart = new SampleChart().from("2023-01-05T06:00:00Z", Duration.ofHours(6));
    for (int i = 0; i < 10; i++) {
      chart.normal(499, 31.2, 3.3, 17 + i).point(31.2 + 14, BEYOND_LIMITS);
    }
    return chart.build();
  }

  private static ControlChart extreme(double centre, double sigma) {
    return new SampleChart()
        .limits(1, "adopted", centre - 3 * sigma, centre, centre + 3 * sigma)
        .specification(null, null)
        .normal(20, centre, sigma, 30)
        .point(centre + 4 * sigma, BEYOND_LIMITS)
        .build();
  }

  private static ControlChart allEqual() {
    return new SampleChart().noLimits().points(30, 30, 30, 30, 30).build();
  }

  private static ControlChart hours() {
    return new SampleChart()
        .from("2026-03-14T18:20:00Z", Duration.ofMinutes(45))
        .normal(30, 31.2, 3.9, 31)
        .build();
  }

  private static ControlChart years() {
    return new SampleChart()
        .from("2021-11-14T18:20:00Z", Duration.ofDays(30))
        .normal(60, 31.2, 3.9, 32)
        .build();
  }

  static ControlChart belowDetection() {
    return new SampleChart()
        .headline("Soap after drying, north line: mostly below detection")
        .limits(1, "adopted", null, 4.0, 11.0)
        .specification(null, 20.0)
        .uncertainty(0.8)
        .points(3.0, 4.5, 6.0)
        .belowDetection(1.5)
        .belowDetection(2)
        .points(5, 7)
        .belowDetection(0)
        .points(4)
        .build();
  }

  /** A change that is found later, with its cause. */
  static ControlChart change() {
    return changing("harbour line: out of control since 20 Mar, change about 14 Mar")
        .change("2026-03-14", "2026-03-12", "2026-03-16", "change about 14 Mar", null)
        .build();
  }

  private static SampleChart changing(String message) {
    return new SampleChart()
        .headline("Soap after the tower, " + message)
        .rules(Set.of(BEYOND_LIMITS))
        .ewma(new Ewma(0.1, 2.9))
        .normal(12, 31.2, 3.0, 5)
        .points(36.1, 37.7, 35.2, 38.4, 36.9, 40.2)
        .point(39.5, DriftRule.EWMA_BEYOND_LIMITS)
        .point(41.8, DriftRule.EWMA_BEYOND_LIMITS)
        .point(44.2, BEYOND_LIMITS, DriftRule.EWMA_BEYOND_LIMITS)
        .point(41.0, DriftRule.EWMA_BEYOND_LIMITS);
  }

  /** A change with its finding, an outlier, and what was done at the plant. */
  static ControlChart happenings() {
    return changing("harbour line: out of control since 20 Mar, change about 14 Mar")
        .change("2026-03-05", null, null, "change about 5 Mar", "sampled before settling")
        .change(
            "2026-03-14",
            "2026-03-12",
            "2026-03-16",
            "change about 14 Mar",
            "channelling in the tower, resin dry at the top")
        .event("2026-03-04", "titrant-change", "lot hcl-08 opened")
        .event("2026-03-13", "feed-change", "used frying oil from the second collector")
        .event("2026-03-23", "media-change", null)
        .build();
  }

  static ControlChart eventsClose() {
    SampleChart chart = new SampleChart().normal(30, 31.2, 3.9, 52);
    for (int day = 10; day < 16; day++) {
      chart.event("2026-03-" + day, "maintenance", "pump " + day + " taken out and cleaned");
    }
    return chart
        .event("2026-03-30", "other", "holidays begin, one shift only from now on")
        .event("2026-03-31", "media-change", "tower repacked with fresh resin of the old supplier")
        .build();
  }

  static ControlChart changedBefore() {
    SampleChart chart =
        new SampleChart()
            .headline("Soap after the tower, harbour line: out of control since 2 Mar")
            .change("2026-02-20", "2026-02-18", "2026-02-26", "change about 20 Feb", null);
    for (double value : new double[] {44.1, 43.8, 46.0, 45.2, 47.7}) {
      chart.point(value, BEYOND_LIMITS);
    }
    return chart.build();
  }

  /** Two results that were taken back, one of them far away from all others. */
  static ControlChart withdrawn() {
    return new SampleChart()
        .normal(12, 31.2, 3.9, 53)
        .withdrawn(47.5)
        .normal(6, 31.2, 3.9, 54)
        .withdrawn(412)
        .normal(4, 31.2, 3.9, 55)
        .withdrawn(22.5)
        .build();
  }

  static ControlChart scripts() {
    return new SampleChart()
        .headline("Seife <nach> dem \"Turm\" & Мыло после башни, σαπούνι, 肥皂 \u0000\uD800\u202E!")
        .names("Línea <b>\"Süd\" & Öst</b>", "Мыло ]]> 皂")
        .unit("mg/kg & <x>")
        .normal(12, 31.2, 3.9, 33)
        .build();
  }
}
