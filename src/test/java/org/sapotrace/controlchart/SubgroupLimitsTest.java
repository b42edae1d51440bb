package org.sapotrace.controlchart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.Stream;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;

/** Limits of means, ranges and standard deviations from subgroups of any size. */
class SubgroupLimitsTest {

  private static final double PUBLISHED = 2e-4;
  private static final double EXACT = 1e-9;

  // Montgomery, Introduction to Statistical Quality Control, flow width, 25 subgroups of 5:
  // worked-examples.json M1. The textbook's constants are rounded to three digits.
  @Test
  void agreeWithTheTextbookByRanges() {
    ControlLimits limits = from("flow_width", Dispersion.RANGE);
    Spread.Limits ranges = Spread.RANGE.limits(limits.sigma(), 5);
    JsonNode published = Published.example("M1").path("published");
    near(limits.centre(), published, "xbarbar", PUBLISHED);
    near(limits.ofMeans(5).upper(), published, "x_ucl", PUBLISHED);
    near(limits.ofMeans(5).lower(), published, "x_lcl", PUBLISHED);
    near(ranges.centre(), published, "rbar", PUBLISHED);
    near(ranges.upper(), published, "r_ucl", PUBLISHED);
    near(limits.sigma(), published, "sigma", PUBLISHED);

    JsonNode exact = Published.example("M1").path("exact");
    near(limits.centre(), exact, "xbarbar", EXACT);
    near(limits.ofMeans(5).upper(), exact, "x_ucl_R", EXACT);
    near(limits.ofMeans(5).lower(), exact, "x_lcl_R", EXACT);
    near(limits.sigma(), exact, "sigma_R", EXACT);
    near(ranges.centre(), exact, "rbar", EXACT);
    near(ranges.upper(), exact, "r_ucl", EXACT);
    assertThat(ranges.lower()).isNull();
  }

  // The same flow widths: worked-examples.json M1, computed.
  @Test
  void agreeWithTheWorkedExampleByStandardDeviations() {
    ControlLimits limits = from("flow_width", Dispersion.STANDARD_DEVIATION);
    Spread.Limits deviations = Spread.STANDARD_DEVIATION.limits(limits.sigma(), 5);
    JsonNode exact = Published.example("M1").path("exact");
    near(limits.ofMeans(5).upper(), exact, "x_ucl_S", EXACT);
    near(limits.ofMeans(5).lower(), exact, "x_lcl_S", EXACT);
    near(limits.sigma(), exact, "sigma_S", EXACT);
    near(deviations.centre(), exact, "sbar", EXACT);
    near(deviations.upper(), exact, "s_ucl", EXACT);
    assertThat(deviations.lower()).isNull();
  }

  // Montgomery, Introduction to Statistical Quality Control, piston rings, 25 subgroups of 5, from
  // memory: mean 74.001, s̄ 0.0094, limits 74.014 and 73.988, of s 0.0196; constants rounded.
  @Test
  void agreeWithThePistonRings() {
    ControlLimits limits = from("piston_rings", Dispersion.STANDARD_DEVIATION);
    Spread.Limits deviations = Spread.STANDARD_DEVIATION.limits(limits.sigma(), 5);
    assertThat(limits.centre()).isCloseTo(74.001, within(5e-4));
    assertThat(deviations.centre()).isCloseTo(0.0094, within(5e-5));
    assertThat(limits.ofMeans(5).upper()).isCloseTo(74.014, within(1e-3));
    assertThat(limits.ofMeans(5).lower()).isCloseTo(73.988, within(1e-3));
    assertThat(deviations.upper()).isCloseTo(0.0196, within(1e-4));
  }

  private static void near(double actual, JsonNode expected, String field, double tolerance) {
    assertThat(actual).as(field).isCloseTo(expected.path(field).asDouble(), within(tolerance));
  }

  private static ControlLimits from(String series, Dispersion dispersion) {
    return ControlLimits.fromSubgroups(
        Baseline.ofSubgroups(List.of(published(series))), dispersion, false);
  }

  static List<Subgroup> published(String series) {
    JsonNode rows = Published.json("datasets.json").path(series).path("data");
    return StreamSupport.stream(rows.spliterator(), false)
        .map(
            row ->
                new Subgroup(
                    StreamSupport.stream(row.spliterator(), false)
                        .map(JsonNode::asDouble)
                        .toList()))
        .toList();
  }

  // constants.csv, computed with more digits: D1, D2, d2 and B5, B6, c4 of each size. Printed
  // tables
  // have 2.574 for D4(3) (from memory), which is 2.574591 and rounds to 2.575.
  @ParameterizedTest
  @CsvSource({"2", "3", "4", "5", "15", "18", "20", "25"})
  void haveTheFactorsOfTheTableForEachSize(int n) {
    List<String> names = List.of(Published.lines("constants.csv").get(0).split(","));
    List<Double> row =
        Published.lines("constants.csv").stream()
            .skip(1)
            .map(line -> Stream.of(line.split(",")).map(Double::valueOf).toList())
            .filter(values -> values.get(0) == n)
            .findFirst()
            .orElseThrow();
    Spread.Limits ranges = Spread.RANGE.limits(2, n);
    Spread.Limits deviations = Spread.STANDARD_DEVIATION.limits(2, n);
    assertFactor(ranges.centre(), row.get(names.indexOf("d2")));
    assertFactor(ranges.upper(), row.get(names.indexOf("D2")));
    assertFactor(ranges.lower(), row.get(names.indexOf("D1")));
    assertFactor(deviations.centre(), row.get(names.indexOf("c4")));
    assertFactor(deviations.upper(), row.get(names.indexOf("B6")));
    assertFactor(deviations.lower(), row.get(names.indexOf("B5")));
    assertThat(ranges.upper() / ranges.centre())
        .isCloseTo(row.get(names.indexOf("D4")), within(1e-11));
  }

  private static void assertFactor(Double limit, double factor) {
    if (factor == 0) {
      assertThat(limit).isNull();
    } else {
      assertThat(limit).isCloseTo(2 * factor, within(1e-11));
    }
  }

  // By hand: subgroups (1, 3), (2, 2, 5), (4), with d2(2) = 1.128379, d2(3) = 1.692569 and c4(2) =
  // 0.797885, c4(3) = 0.886227 (constants.csv); s of (1, 3) is √2, of (2, 2, 5) √3. Six of each.
  @Test
  void weighEachSubgroupByItsOwnSize() {
    List<Subgroup> subgroups = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      subgroups.add(new Subgroup(List.of(1.0, 3.0)));
      subgroups.add(new Subgroup(List.of(2.0, 2.0, 5.0)));
      subgroups.add(Subgroup.of(4));
    }
    Baseline baseline = Baseline.ofSubgroups(List.of(subgroups));
    ControlLimits byRange = ControlLimits.fromSubgroups(baseline, Dispersion.RANGE, false);
    assertThat(byRange.centre()).isCloseTo(17 / 6.0, within(1e-14));
    assertThat(byRange.sigma())
        .isCloseTo((2 / 1.1283791670955 + 3 / 1.6925687506433) / 2, within(1e-12));
    assertThat(Dispersion.STANDARD_DEVIATION.sigmaWithin(baseline))
        .isCloseTo(
            (Math.sqrt(2) / 0.79788456080287 + Math.sqrt(3) / 0.88622692545276) / 2, within(1e-12));
    assertThat(baseline.size()).isEqualTo(18);
    assertThat(byRange.ofMeans(1)).isSameAs(byRange);
    assertThat(byRange.ofMeans(9).upper())
        .isCloseTo(byRange.centre() + byRange.sigma(), within(1e-14));
  }

  // Unbiased: over many baselines of unequal subgroups of the unit normal the estimates are 1 on
  // average; their standard error here is below 0.001.
  @ParameterizedTest
  @EnumSource(names = {"RANGE", "STANDARD_DEVIATION"})
  void findSigmaOnAverage(Dispersion dispersion) {
    SplittableRandom random = new SplittableRandom(20);
    double sum = 0;
    int baselines = 4000;
    for (int i = 0; i < baselines; i++) {
      List<Subgroup> subgroups = new ArrayList<>();
      for (int j = 0; j < 20; j++) {
        int n = 1 + random.nextInt(6);
        subgroups.add(new Subgroup(Stream.generate(random::nextGaussian).limit(n).toList()));
      }
      sum += dispersion.sigmaWithin(Baseline.ofSubgroups(List.of(subgroups)));
    }
    assertThat(sum / baselines).isCloseTo(1, within(0.005));
  }

  // Ranges are taken of 25 values at most; the larger subgroup counts for the centre only.
  @Test
  void leaveOutRangesOfMoreThanTwentyFive() {
    List<Double> many = new ArrayList<>(Collections.nCopies(30, 7.0));
    many.set(0, 37.0);
    List<Subgroup> subgroups =
        new ArrayList<>(Collections.nCopies(8, new Subgroup(List.of(1.0, 3.0))));
    subgroups.add(new Subgroup(many));
    Baseline baseline = Baseline.ofSubgroups(List.of(subgroups));
    assertThat(Dispersion.RANGE.sigmaWithin(baseline)).isCloseTo(Math.sqrt(Math.PI), within(1e-12));
    assertThat(ControlLimits.fromSubgroups(baseline, Dispersion.RANGE, false).centre())
        .isCloseTo((16 * 2 + 29 * 7 + 37) / 46.0, within(1e-12));
    assertThat(Spread.RANGE.hasLimits(26)).isFalse();
    assertThat(Spread.STANDARD_DEVIATION.hasLimits(26)).isTrue();
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "7 | 3 | at least 8 subgroups, not 7",
        "8 | 1 | comes out as 0",
        "8 | 0 | No subgroup of the baseline has two values or more"
      })
  void refuseABaselineThatTellsNothing(int count, double other, String why) {
    Subgroup each = other == 0 ? Subgroup.of(1) : new Subgroup(List.of(1.0, other));
    Baseline baseline = Baseline.ofSubgroups(List.of(Collections.nCopies(count, each)));
    assertThatThrownBy(
            () -> ControlLimits.fromSubgroups(baseline, Dispersion.STANDARD_DEVIATION, false))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining(why);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "range              | 1  | Use moving-range, median-moving-range or standard-deviation.",
        "moving-range       | 2  | Use standard-deviation or range.",
        "median-moving-range| 5  | Use standard-deviation or range.",
        "range              | 26 | Use standard-deviation for subgroups of 26."
      })
  void sayWhatServesSubgroupsOfThatSize(String dispersion, int size, String advice) {
    assertThatThrownBy(() -> Dispersion.named(dispersion.strip()).forSubgroupsOf(size))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageEndingWith(advice);
    assertThat(Dispersion.STANDARD_DEVIATION.forSubgroupsOf(size))
        .isEqualTo(Dispersion.STANDARD_DEVIATION);
  }

  @Test
  void takeNoMovingRangesWithinSubgroups() {
    Baseline baseline = Baseline.ofSubgroups(List.of(published("flow_width")));
    assertThatThrownBy(() -> Dispersion.MOVING_RANGE.sigmaWithin(baseline))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessageContaining("Use standard-deviation or range");
  }
}
