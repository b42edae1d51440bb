package org.sapotrace.chartimage;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.ControlChart;
import org.sapotrace.controlchart.ControlChart.Kind;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.SignalRule;

class WordingTest {

  private static List<String> circumstances(ControlChart chart) {
    return new Wording(chart).circumstances(false, name -> name);
  }

  private static List<String> period(String from, Duration step, int n) {
    return circumstances(new SampleChart().from(from, step).normal(n, 31.2, 3.9, 1).build());
  }

  @Test
  void saysWhereWhenHowManyAndHowJudged() {
    assertThat(circumstances(SampleCharts.drifting()))
        .containsExactly(
            "Harbour line",
            "after the tower",
            "2 Mar – 24 Mar 2026",
            "23 results",
            "adopted limits, revision 1",
            "rules: beyond limits, two of three beyond 2s, four of five beyond 1s, eight same side");
  }

  @Test
  void namesTheRulesInBriefByTheirSetOrCountsThem() {
    assertThat(rulesInBrief(RunRule.NELSON_1984)).isEqualTo("rules: nelson-1984");
    assertThat(rulesInBrief(RunRule.WESTERN_ELECTRIC_1956))
        .isEqualTo("rules: western-electric-1956");
    assertThat(rulesInBrief(EnumSet.allOf(RunRule.class))).isEqualTo("9 run rules");
    assertThat(rulesInBrief(EnumSet.of(RunRule.BEYOND_LIMITS))).isEqualTo("rule: beyond limits");
  }

  private static String rulesInBrief(Set<RunRule> rules) {
    ControlChart chart = new SampleChart().rules(rules).build();
    List<String> pieces = new Wording(chart).circumstances(true, name -> name);
    return pieces.get(pieces.size() - 1);
  }

  @Test
  void namesWhatElseWatchesTheResults() {
    assertThat(circumstances(SampleCharts.watched()))
        .endsWith(
            "rules: beyond limits, two of three beyond 2s, four of five beyond 1s, eight same side",
            "EWMA of weight 0.1, width 2.9",
            "CUSUM of reference 0.5, decision 5, head start 2.5");
    assertThat(new Wording(SampleCharts.watched()).circumstances(true, name -> name))
        .endsWith("rules: western-electric-1956", "EWMA", "CUSUM");
    ControlChart alone = new SampleChart().rules(Set.of()).ewma(new Ewma(0.2, 3)).build();
    assertThat(circumstances(alone))
        .endsWith("adopted limits, revision 1", "EWMA of weight 0.2, width 3");
  }

  @Test
  void saysOnWhichScaleResultsAreJudged() {
    assertThat(circumstances(SampleCharts.logScale()))
        .contains("adopted limits on a log scale, revision 2");
    assertThat(new Explanations(SampleCharts.logScale()).pieces(false, Axis.TIME))
        .containsExactly(
            "L  one result beyond a control limit",
            "at or below 0, where a log scale has no place: judged as 4 standard deviations low");
    ControlChart ranges = new SampleChart().kind(Kind.MOVING_RANGE).scale(Scale.LOG).build();
    assertThat(new Wording(ranges).axis()).isEqualTo("moving range of ln soap");
  }

  @Test
  void saysThatThereIsNothingYet() {
    assertThat(circumstances(new SampleChart().noLimits().rules(Set.of()).build()))
        .containsExactly(
            "Harbour line",
            "after the tower",
            "no results yet",
            "no limits yet",
            "no rules in use");
  }

  @Test
  void writesThePeriodWithTheYearWhereItChanges() {
    assertThat(period("2025-12-20T06:00:00Z", Duration.ofDays(1), 31))
        .contains("20 Dec 2025 – 19 Jan 2026");
  }

  @Test
  void writesShortPeriodsWithTheTime() {
    assertThat(period("2026-03-14T06:20:00Z", Duration.ofHours(1), 4))
        .contains("14 Mar 2026 06:20 – 09:20 UTC");
    assertThat(period("2026-03-14T18:20:00Z", Duration.ofHours(12), 2))
        .contains("14 Mar 2026 18:20 – 15 Mar 2026 06:20 UTC");
    assertThat(period("2026-03-14T18:20:00Z", Duration.ofHours(12), 1))
        .contains("14 Mar 2026 18:20 UTC", "1 result");
  }

  @Test
  void namesTheStatisticOnTheAxis() {
    assertThat(new Wording(SampleCharts.drifting()).axis()).isEqualTo("soap, mg/kg");
    assertThat(new Wording(SampleCharts.movingRange()).axis())
        .isEqualTo("moving range of soap, mg/kg");
  }

  @Test
  void explainsMarksOnlyWhereTheyAreUsed() {
    assertThat(new Explanations(SampleCharts.twoPhases()).pieces(false, Axis.TIME))
        .containsExactly("L  one result beyond a control limit");
    assertThat(new Explanations(SampleCharts.belowDetection()).pieces(true, Axis.TIME))
        .containsExactly(
            "circle on a tick: no more titrant than the blank",
            "vertical bar: ± 2 standard uncertainties");
  }

  @Test
  void givesEachRuleALetterOfItsOwn() {
    assertThat(SignalRule.ALL).extracting(SignalRule::letter).doesNotHaveDuplicates();
  }
}
