package org.sapotrace.washmodel;

import org.hipparchus.analysis.solvers.BracketingNthOrderBrentSolver;

/**
 * How water meets fuel in a wash of n equal stages. E is the extraction factor of a stage, above 0:
 * the soap that its water holds over the soap that its fuel keeps, once they have settled. Removal
 * is ln(inlet/outlet).
 */
public enum WashScheme {
  /** Fresh water for every stage: C_n = C_0 / (1 + E)^n. */
  CROSS_FLOW("cross-flow") {
    @Override
    double removed(double extraction, double stages) {
      return stages * Math.log1p(extraction);
    }

    @Override
    double stages(double extraction, double removal) {
      return removal / Math.log1p(extraction);
    }
  },

  /**
   * Water and fuel in opposite directions: C_n = C_0 (E - 1) / (E^(n+1) - 1), and C_0 / (n + 1) for
   * E = 1. A. Kremser, National Petroleum News 22 (1930), number 21, 43 (from memory).
   */
  COUNTER_CURRENT("counter-current") {
    @Override
    double removed(double extraction, double stages) {
      double log = Math.log(extraction);
      return log == 0
          ? Math.log1p(stages)
          : Math.log(Math.expm1((stages + 1) * log) / Math.expm1(log));
    }

    @Override
    double stages(double extraction, double removal) {
      double log = Math.log(extraction);
      // Below E = 1 no number of stages leaves less than 1 - E of the soap.
      double power = 1 + Math.exp(removal) * Math.expm1(log);
      return log == 0
          ? Math.expm1(removal)
          : power > 0 ? Math.log(power) / log - 1 : Double.POSITIVE_INFINITY;
    }
  };

  private static final double ACCURACY = 1e-12;
  private static final int MAX_EVALUATIONS = 1000;

  private final String id;

  WashScheme(String id) {
    this.id = id;
  }

  /** The name in the interface. */
  public String id() {
    return id;
  }

  /**
   * The soap that is left.
   *
   * @param inlet C_0 in mg/kg, above 0
   * @param extraction E, above 0
   * @param stages n, at least 0
   * @return C_n in mg/kg
   */
  public double outlet(double inlet, double extraction, double stages) {
    check(inlet > 0 && inlet < Double.POSITIVE_INFINITY, "soap before it that is above 0");
    check(stages >= 0 && stages < Double.POSITIVE_INFINITY, "a number of stages");
    return inlet * Math.exp(-removed(checked(extraction), stages));
  }

  /**
   * The stages that take off so much, as a number that need not be whole.
   *
   * @param extraction E, above 0
   * @param removal ln(inlet/outlet), above 0
   * @return infinite where no number of stages does
   */
  public double stagesFor(double extraction, double removal) {
    check(removal > 0, "a removal above 0");
    return stages(checked(extraction), removal);
  }

  /**
   * The extraction factor that a removal shows.
   *
   * @param removal ln(inlet/outlet), above 0 and at most 50
   * @param stages n, from 1 to 100
   */
  public double extraction(double removal, int stages) {
    check(removal > 0 && removal <= 50, "a removal, ln(inlet/outlet), above 0 and at most 50");
    checkStages(stages);
    // Both schemes with n stages lie between removals of ln(1 + E) and n ln(1 + E).
    double least = Math.expm1(removal / stages) * (1 - ACCURACY);
    double most = Math.expm1(removal) * (1 + ACCURACY);
    return new BracketingNthOrderBrentSolver(ACCURACY, ACCURACY * least, ACCURACY, 5)
        .solve(MAX_EVALUATIONS, e -> removed(e, stages) - removal, least, most);
  }

  static void checkStages(int stages) {
    check(stages >= 1 && stages <= 100, "1 to 100 stages");
  }

  abstract double removed(double extraction, double stages);

  abstract double stages(double extraction, double removal);

  private static double checked(double extraction) {
    check(extraction > 0 && extraction < Double.POSITIVE_INFINITY, "an extraction factor above 0");
    return extraction;
  }

  private static void check(boolean holds, String needed) {
    if (!holds) {
      throw new IllegalArgumentException("A wash needs %s: check the entries.".formatted(needed));
    }
  }
}
