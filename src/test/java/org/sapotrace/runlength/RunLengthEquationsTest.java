package org.sapotrace.runlength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Ewma;

/** Run lengths by integral equations, against those computed by other code. */
class RunLengthEquationsTest {

  static List<Published.Row> ewma() {
    return Published.rows("arl_ewma.csv");
  }

  static List<Published.Row> cusum() {
    return Published.rows("arl_cusum.csv");
  }

  static List<Published.Row> movingRange() {
    return Published.rows("arl_imr.csv");
  }

  // Source: arl_ewma.csv.
  @ParameterizedTest
  @MethodSource("ewma")
  void agreesOnAnEwma(Published.Row row) {
    Ewma ewma = new Ewma(row.number("lambda"), row.number("L"));
    EwmaEquation equation = new EwmaEquation(ewma, false);
    double shift = row.number("shift_sigma");
    double[] found =
        row.text("limits").equals("asymptotic") ? equation.atSettled(shift) : equation.at(shift);
    assertThat(found[0]).isCloseTo(row.number("ARL_zero_state"), within(1e-6));
  }

  // Source: arl_cusum.csv.
  @ParameterizedTest
  @MethodSource("cusum")
  void agreesOnACusum(Published.Row row) {
    Cusum cusum = new Cusum(row.number("k"), row.number("h"), row.number("headstart"));
    double shift = row.number("shift_sigma");
    double found =
        row.text("sides").equals("upper")
            ? CusumEquation.OneSided.of(cusum, shift).fromHeadStart()
            : new CusumEquation(cusum).at(shift)[0];
    assertThat(found).isCloseTo(row.number("ARL"), within(1e-6));
  }

  // Source: arl_imr.csv.
  @ParameterizedTest
  @MethodSource("movingRange")
  void agreesOnAMovingRange(Published.Row row) {
    boolean limited = !row.text("chart").equals("MR alone");
    double shift = limited ? row.number("shift_sigma") : 0.7;
    double found = new MovingRangeEquation(limited, row.number("MR_limit_sigma")).at(shift)[0];
    assertThat(found).isCloseTo(row.number("ARL"), within(1e-6));
  }

  @Test
  void takesThreeStandardDeviationsOfTheMovingRangeForItsLimit() {
    // Source: arl_imr.csv, the row of limits with D2.
    assertThat(MovingRangeEquation.of(true).at(0)[0]).isCloseTo(105.33093182, within(1e-6));
  }

  // Source: 1/p, p the normal probability beyond the nearer limit, NIST/SEMATECH e-Handbook
  // 1.3.6.7.1.
  @ParameterizedTest
  @CsvSource({"2, 0.0455002638963584", "3, 0.00269979606326021", "4, 0.00269979606326021"})
  void isTheChartOfSingleResultsWhereLambdaIsOne(double width, double beyond) {
    assertThat(new EwmaEquation(new Ewma(1, width), true).at(0)[0] * beyond)
        .isCloseTo(1, within(1e-9));
  }

  @Test
  void signalsSoonerWithControlLimitsBesideAnEwma() {
    double[] alone = new EwmaEquation(new Ewma(0.1, 2.9), false).at(0, 0.5, 3);
    double[] beside = new EwmaEquation(new Ewma(0.1, 2.9), true).at(0, 0.5, 3);
    for (int i = 0; i < alone.length; i++) {
      assertThat(beside[i]).isLessThan(alone[i]);
    }
    // Source: control limits alone, arl_run_rules.csv.
    assertThat(beside[0]).isLessThan(370.398347);
    assertThat(new EwmaEquation(new Ewma(0.3, 6), true).at(0)[0])
        .isCloseTo(370.398347, within(1e-4));
  }

  @Test
  void answersEachShiftAsIfItWereAlone() {
    EwmaEquation equation = new EwmaEquation(new Ewma(0.2, 2.7), true);
    double[] together = equation.at(0, 1, -1, 3);
    assertThat(together[1] / equation.at(1)[0]).isCloseTo(1, within(1e-12));
    assertThat(together[2] / together[1]).isCloseTo(1, within(1e-11));
    assertThat(together[3] / equation.at(3)[0]).isCloseTo(1, within(1e-12));
  }

  @Test
  void isSymmetricInTheTwoSumsOfACusum() {
    double[] runs = new CusumEquation(new Cusum(0.5, 5, 2)).at(1.3, -1.3);
    assertThat(runs[1] / runs[0]).isCloseTo(1, within(1e-12));
  }

  @Test
  void losesNoDigitsOfAbsorptionThatHardlyEverHappens() {
    // Source: from state 0 a chain goes to 1, from 1 back or, with 1e-40, out: 2e40 steps.
    double[] steps = Absorption.meanSteps(new double[][] {{0, 1}, {1, 0}}, new double[] {0, 1e-40});
    assertThat(steps[0] / 2e40).isCloseTo(1, within(1e-14));
  }

  @Test
  void neverRunsLessThanOneResult() {
    double[] runs = new CusumEquation(new Cusum(0, 1e-300, 0)).at(0, 0.5, 1, 1.5, 2);
    for (double run : runs) {
      assertThat(run).isGreaterThanOrEqualTo(1);
    }
  }
}
