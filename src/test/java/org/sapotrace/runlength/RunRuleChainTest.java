package org.sapotrace.runlength;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.sapotrace.controlchart.RunRule.BEYOND_LIMITS;
import static org.sapotrace.controlchart.RunRule.EIGHT_OUTSIDE_1S;
import static org.sapotrace.controlchart.RunRule.EIGHT_SAME_SIDE;
import static org.sapotrace.controlchart.RunRule.FIFTEEN_WITHIN_1S;
import static org.sapotrace.controlchart.RunRule.FOURTEEN_ALTERNATING;
import static org.sapotrace.controlchart.RunRule.NINE_SAME_SIDE;
import static org.sapotrace.controlchart.RunRule.SIX_TRENDING;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.MatrixUtils;
import org.hipparchus.linear.RealMatrix;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.sapotrace.controlchart.RunRule;

class RunRuleChainTest {

  private static final Set<RunRule> ALL_THAT_HOLD =
      EnumSet.complementOf(EnumSet.of(SIX_TRENDING, FOURTEEN_ALTERNATING));

  static List<Published.Row> exact() {
    return Published.rows("arl_run_rules.csv").stream()
        .filter(row -> row.text("method").matches("exact (Markov chain|closed form)"))
        .toList();
  }

  static List<Set<RunRule>> combinations() {
    return List.of(
        EnumSet.of(EIGHT_OUTSIDE_1S),
        EnumSet.of(EIGHT_SAME_SIDE, NINE_SAME_SIDE),
        EnumSet.of(NINE_SAME_SIDE, FIFTEEN_WITHIN_1S, EIGHT_OUTSIDE_1S),
        EnumSet.range(RunRule.TWO_OF_THREE_BEYOND_2S, EIGHT_SAME_SIDE),
        ALL_THAT_HOLD);
  }

  // Source: arl_run_rules.csv.
  @ParameterizedTest
  @MethodSource("exact")
  void agreesWithIndependentlyComputedRunLengths(Published.Row row) {
    assertThat(RunRuleChain.of(row.rules()).at(row.number("shift_sigma"))[0])
        .isCloseTo(row.number("ARL"), within(1e-6));
  }

  // Source: f = 1 + Q f solved by elimination.
  @ParameterizedTest
  @MethodSource("combinations")
  void solvesTheLinearEquationsOfTheChain(Set<RunRule> rules) {
    RunRuleChain chain = RunRuleChain.of(rules);
    for (double shift : new double[] {-1, 0, 0.5, 3}) {
      RealMatrix equations = equations(chain, shift);
      double[] ones = new double[equations.getRowDimension()];
      Arrays.fill(ones, 1);
      double expected =
          new LUDecomposition(equations).getSolver().solve(new ArrayRealVector(ones)).getEntry(0);
      assertThat(chain.at(shift)[0] / expected).as("shift %s", shift).isCloseTo(1, within(1e-10));
    }
  }

  @Test
  void isTheSameForAShiftUpwardsAndDownwards() {
    RunRuleChain chain = RunRuleChain.of(ALL_THAT_HOLD);
    double[] runs = chain.at(0.7, -0.7, 2.5, -2.5);
    assertThat(runs[1] / runs[0]).isCloseTo(1, within(1e-12));
    assertThat(runs[3] / runs[2]).isCloseTo(1, within(1e-12));
  }

  @Test
  void losesNoDigitsWhereSignalsAreRarest() {
    // Source: (1 - p^15) / ((1 - p) p^15) with p the normal probability of -4 to -2, which is
    // Φ(-2) - Φ(-4), from memory 0.0227501319482 - 0.0000316712418.
    double p = 0.0227501319482 - 0.0000316712418;
    double expected = (1 - Math.pow(p, 15)) / ((1 - p) * Math.pow(p, 15));
    assertThat(RunRuleChain.of(EnumSet.of(FIFTEEN_WITHIN_1S)).at(3)[0] / expected)
        .isCloseTo(1, within(1e-9));
  }

  @Test
  void signalsAtOnceFarBeyondTheLimits() {
    assertThat(RunRuleChain.of(EnumSet.of(BEYOND_LIMITS)).at(40)[0]).isEqualTo(1);
  }

  private static RealMatrix equations(RunRuleChain chain, double shift) {
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
    return equations;
  }
}
