package org.sapotrace.runlength;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.jspecify.annotations.Nullable;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Warmup;
import org.sapotrace.controlchart.Cusum;
import org.sapotrace.controlchart.Detectors;
import org.sapotrace.controlchart.Ewma;
import org.sapotrace.controlchart.RunRule;

/**
 * Average run lengths at the eight shifts of an answer. The yardstick of the same run is {@link
 * #baseline}: the linear equations of the four Western Electric rules, solved by elimination.
 */
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Fork(1)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class ChartDesignBenchmark {

  private static final double[] SHIFTS = {0, 0.25, 0.5, 0.75, 1, 1.5, 2, 3};
  private static final Set<RunRule> LIMITS = EnumSet.of(RunRule.BEYOND_LIMITS);

  @Benchmark
  public double baseline() {
    RunRuleChain chain = RunRuleChain.of(RunRule.WESTERN_ELECTRIC_1956);
    return Arrays.stream(SHIFTS).map(shift -> byElimination(chain, shift)).sum();
  }

  @Benchmark
  public List<AverageRunLength> westernElectric() {
    return runs(RunRule.WESTERN_ELECTRIC_1956, null, null, false);
  }

  @Benchmark
  public List<AverageRunLength> threeLongRules() {
    return runs(
        EnumSet.of(RunRule.NINE_SAME_SIDE, RunRule.FIFTEEN_WITHIN_1S, RunRule.EIGHT_OUTSIDE_1S),
        null,
        null,
        false);
  }

  @Benchmark
  public List<AverageRunLength> allRulesButTrends() {
    return runs(
        EnumSet.complementOf(EnumSet.of(RunRule.SIX_TRENDING, RunRule.FOURTEEN_ALTERNATING)),
        null,
        null,
        false);
  }

  @Benchmark
  public List<AverageRunLength> limitsAndEwma() {
    return runs(LIMITS, Ewma.DEFAULT, null, false);
  }

  @Benchmark
  public List<AverageRunLength> limitsAndSlowestEwma() {
    return runs(LIMITS, new Ewma(EwmaEquation.LEAST_LAMBDA, 2.9), null, false);
  }

  @Benchmark
  public List<AverageRunLength> cusum() {
    return runs(Set.of(), null, Cusum.USUAL, false);
  }

  @Benchmark
  public List<AverageRunLength> limitsAndMovingRange() {
    return runs(LIMITS, null, null, true);
  }

  @Benchmark
  public List<Suggestion> suggestions() {
    return new Wanted(365.25, 1).suggestions();
  }

  @Benchmark
  public List<Suggestion> suggestionsBesideLimits() {
    return new Wanted(200, 1).suggestions();
  }

  private static List<AverageRunLength> runs(
      Set<RunRule> rules, @Nullable Ewma ewma, @Nullable Cusum cusum, boolean movingRange) {
    return new ChartDesign(new Detectors(rules, ewma, cusum), movingRange)
        .averageRunLengths(SHIFTS);
  }

  private static double byElimination(RunRuleChain chain, double shift) {
    double[] zones = RunRuleChain.zones(shift);
    int[][] moves = chain.moves();
    RealMatrix equations = MatrixUtils.createRealIdentityMatrix(moves.length);
    for (int i = 0; i < moves.length; i++) {
      for (int zone = 0; zone < zones.length; zone++) {
        if (moves[i][zone] >= 0) {
          equations.addToEntry(i, moves[i][zone], -zones[zone]);
        }
      }
    }
    ArrayRealVector ones = new ArrayRealVector(moves.length, 1);
    return new LUDecomposition(equations).getSolver().solve(ones).getEntry(0);
  }
}
