package org.sapotrace.baseline;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.SplittableRandom;
import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;
import org.sapotrace.controlchart.Baseline;
import org.sapotrace.controlchart.ControlLimits;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Dispersion;
import org.sapotrace.controlchart.Published;
import org.sapotrace.controlchart.RunRule;
import org.sapotrace.controlchart.Scale;
import org.sapotrace.controlchart.Side;

/** What is found in a baseline, and what is advised on it. */
class DiagnosticsTest {

  private static final Detectors WESTERN_ELECTRIC =
      new Detectors(RunRule.WESTERN_ELECTRIC_1956, null, null);

  @Test
  void saysLittleOfABaselineInOrder() {
    List<String> advice = advice(normal(25), Dispersion.MOVING_RANGE);
    // 0.0089 instead of 0.0027: estimated_limits.csv, computed.
    assertThat(advice)
        .containsExactly(
            "Adopt again at 30 results and at 100: from 25 results by moving ranges, 8.9 of 1000"
                + " results in control fall beyond the limits on average, instead of 2.7.");
  }

  @Test
  void saysWhatMoreResultsAreWorth() {
    assertThat(last(advice(normal(50), Dispersion.STANDARD_DEVIATION)))
        .isEqualTo(
            "Adopt again at 100 results: from 50 results by their standard deviation, 4.4 of 1000"
                + " results in control fall beyond the limits on average, instead of 2.7.");
    assertThat(last(advice(normal(300), Dispersion.MEDIAN_MOVING_RANGE)))
        .startsWith("Keep these limits")
        .contains("by the median moving range, more than 3.1 of 1000");
  }

  // The interval of the power, -0.018 to 0.586, holds 0 and not 1: worked-examples.json N6.
  @Test
  void recommendsALogScaleForSkewedResults() {
    assertThat(advice(Published.series("nist_boxcox"), Dispersion.MOVING_RANGE))
        .anyMatch(sentence -> sentence.startsWith("Chart this stream on a log scale"));
  }

  @Test
  void recommendsABoxCoxScaleWhereTheLogarithmDoesNotDo() {
    double[] squareRoots =
        Arrays.stream(normal(200)).map(x -> Math.pow(1.4 + 0.4 * x, 2)).toArray();
    assertThat(advice(squareRoots, Dispersion.MOVING_RANGE))
        .anyMatch(s -> s.startsWith("Chart this stream on a Box-Cox scale with lambda 0."));
  }

  @Test
  void looksForAMixtureWhereNoScaleHelps() {
    // Two levels in turn: symmetrical, and anything but normal.
    double[] two = normal(80);
    for (int i = 0; i < two.length; i++) {
      two[i] = 100 + 0.2 * two[i] + (i * 7 % 4 < 2 ? 3 : -3);
    }
    assertThat(advice(two, Dispersion.MOVING_RANGE))
        .anyMatch(s -> s.startsWith("Look for two products, lots or methods"));
  }

  @Test
  void warnsOfWhatCarriesOverAndOfSwinging() {
    double[] noise = normal(100);
    double[] carried = new double[100];
    double[] swinging = new double[100];
    for (int i = 1; i < 100; i++) {
      carried[i] = 0.6 * carried[i - 1] + noise[i];
      swinging[i] = -0.6 * swinging[i - 1] + noise[i];
    }
    assertThat(advice(carried, Dispersion.MOVING_RANGE))
        .anyMatch(s -> s.startsWith("Sample further apart") && s.contains("once in 34 results"));
    assertThat(advice(swinging, Dispersion.MOVING_RANGE))
        .anyMatch(s -> s.startsWith("Find what makes results swing"));
  }

  @Test
  void callsForMoreSampleWhereStepsAreCoarse() {
    double[] coarse = Arrays.stream(normal(40)).map(x -> 60 + 2 * Math.rint(x / 2)).toArray();
    Diagnostics found = diagnose(coarse, Dispersion.MOVING_RANGE);

    assertThat(found.distinctValues()).isBetween(2, 5);
    assertThat(Advice.of(found, Dispersion.MOVING_RANGE, Scale.LINEAR, true, DiagnosticsTest::name))
        .anyMatch(s -> s.startsWith("Titrate more sample") && s.contains("reading step of 2"))
        // Ties alone make results look unlike normal ones.
        .noneMatch(s -> s.startsWith("Look for two products"));
  }

  @Test
  void namesResultsAtWhichRulesHold() {
    double[] values = normal(30);
    values[11] = 9;
    Diagnostics found = diagnose(values, Dispersion.MOVING_RANGE);

    assertThat(found.signals())
        .containsExactly(new InsideSignal(RunRule.BEYOND_LIMITS, Side.HIGH, List.of(11)));
    assertThat(
            Advice.of(found, Dispersion.MOVING_RANGE, Scale.LINEAR, true, DiagnosticsTest::name)
                .get(0))
        .isEqualTo(
            "Find out what happened at batch 11 (one result beyond a control limit, high), and"
                + " adopt again without it if there was a cause.");
  }

  // worked-examples.json P-nist_cusum: the level changes behind the twelfth result, p 0.0028.
  @Test
  void namesAChangeOfLevel() {
    assertThat(advice(Published.series("nist_cusum"), Dispersion.STANDARD_DEVIATION))
        .contains(
            "Take the baseline from one side of batch 12 only: the level seems to have changed there"
                + " (Pettitt's test, p = 0.002768).");
  }

  @Test
  void namesWhatIsNotPositive() {
    double[] values = Arrays.stream(normal(25)).map(x -> 9 + x).toArray();
    values[3] = 0;
    values[4] = -0.5;
    Diagnostics found = diagnose(values, Dispersion.MOVING_RANGE);

    assertThat(found.boxCox()).isNull();
    assertThat(found.notPositive()).isEqualTo(2);
    assertThat(Advice.of(found, Dispersion.MOVING_RANGE, Scale.LINEAR, true, DiagnosticsTest::name))
        .anyMatch(s -> s.startsWith("Check the blank: 2 of 25 results are at or below 0."));
  }

  /** A run of eight that was interrupted is none. */
  @Test
  void beginsRunsAfreshBehindAGap() {
    double[] five = {1, 1, 1, 1, 1};
    ControlLimits limits = new ControlLimits(0, 2, false);
    assertThat(InsideSignal.of(Baseline.withGaps(List.of(five, five)), limits, WESTERN_ELECTRIC))
        .isEmpty();
    assertThat(
            InsideSignal.of(
                Baseline.of(DoubleStream.of(1, 1, 1, 1, 1, 1, 1, 1, 1, 1).toArray()),
                limits,
                WESTERN_ELECTRIC))
        .containsExactly(new InsideSignal(RunRule.EIGHT_SAME_SIDE, Side.HIGH, List.of(7, 8, 9)));
  }

  @Test
  void leavesOutWhatEqualResultsCannotTell() {
    double[] equal = new double[12];
    Diagnostics found = Diagnostics.of(Baseline.of(equal), Baseline.of(equal), List.of());

    assertThat(found.n()).isEqualTo(12);
    assertThat(found.distinctValues()).isEqualTo(1);
    assertThat(found.normality()).isNull();
    assertThat(found.boxCox()).isNull();
    assertThat(found.autocorrelation()).isNull();
    assertThat(found.resolution()).isNull();
  }

  private static String name(int number) {
    return "batch " + number;
  }

  private static String last(List<String> sentences) {
    return sentences.get(sentences.size() - 1);
  }

  private static List<String> advice(double[] values, Dispersion dispersion) {
    return Advice.of(
        diagnose(values, dispersion), dispersion, Scale.LINEAR, false, DiagnosticsTest::name);
  }

  private static Diagnostics diagnose(double[] values, Dispersion dispersion) {
    Baseline baseline = Baseline.of(values);
    ControlLimits limits = ControlLimits.from(baseline, dispersion, false);
    return Diagnostics.of(
        baseline,
        baseline,
        InsideSignal.of(
            baseline, limits, new Detectors(Set.of(RunRule.BEYOND_LIMITS), null, null)));
  }

  private static double[] normal(int count) {
    SplittableRandom random = new SplittableRandom(2);
    return DoubleStream.generate(random::nextGaussian).limit(count).toArray();
  }
}
