package org.sapotrace.detection;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * What the defaults were chosen for, on fewer plants than the report has and on seeds of their own.
 * The bounds leave room for chance: standard errors are below half a batch and 0.6 %.
 */
class DetectionStudyTest {

  private static final SimulatedLine.Spreads USUAL = SimulatedLine.Spreads.USUAL;

  @Test
  void seesAFailingWashInTime() {
    Summary wash = Summary.of(USUAL, new Drift(Fault.WASH, 30), Detecting.DEFAULTS, 600, 101);
    assertThat(wash.warning(0.5)).isGreaterThanOrEqualTo(14);
    assertThat(wash.warning(0.1)).isGreaterThanOrEqualTo(7);
    assertThat(wash.missed()).isLessThan(0.02);
    Summary limits = Summary.of(USUAL, new Drift(Fault.WASH, 30), Detecting.LIMITS_ALONE, 600, 101);
    assertThat(limits.missed()).isGreaterThan(wash.missed());
  }

  @Test
  void seesASoapierFeedNearlyAsSoonAsAnybodyCould() {
    Drift drift = new Drift(Fault.FEED, 30);
    Summary feed = Summary.of(USUAL, drift, Detecting.DEFAULTS, 600, 104);
    assertThat(feed.warning(0.5)).isGreaterThanOrEqualTo(13);
    assertThat(feed.warning(0.1)).isGreaterThanOrEqualTo(5);
    assertThat(feed.missed()).isLessThan(0.025);
    Summary known = Summary.of(USUAL, drift, new AllKnown(USUAL), 600, 104);
    assertThat(known.warning(0.5)).isBetween(feed.warning(0.5), feed.warning(0.5) + 1);
    Summary limit = Summary.of(USUAL, drift, new RampRatio(USUAL, drift, true), 600, 104);
    assertThat(limit.warning(0.5)).isBetween(feed.warning(0.5), feed.warning(0.5) + 2);
  }

  @Test
  void seldomSignalsWhileNothingIsWrong() {
    Map<Charted, Double> alarms =
        Detection.falseAlarms(USUAL, Detecting.DEFAULTS, 150, new SplittableRandom(102));
    assertThat(alarms.values()).allMatch(share -> share < 1 / 55.0).allMatch(share -> share > 0);
  }

  @ParameterizedTest
  @EnumSource(Fault.class)
  void namesTheCause(Fault fault) {
    Summary summary = Summary.of(USUAL, new Drift(fault, 30), Detecting.DEFAULTS, 200, 103);
    assertThat(summary.right(Detection.Asked.FIVE_BATCHES_LATER)).isGreaterThan(0.72);
    assertThat(summary.wrong(Detection.Asked.FIVE_BATCHES_LATER)).isLessThan(0.08);
    assertThat(summary.right(Detection.Asked.AT_THE_FAILURE)).isGreaterThan(0.85);
  }
}
