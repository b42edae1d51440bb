package org.sapotrace.controlchart;

import static org.sapotrace.controlchart.ControlChartConstants.c4;
import static org.sapotrace.controlchart.ControlChartConstants.d2;
import static org.sapotrace.controlchart.ControlChartConstants.d3;

/**
 * The factors by which control limits three standard deviations wide are found from a mean, a mean
 * range R̄, a mean standard deviation s̄ or a known sigma. A lower limit that would be negative, of
 * a statistic that cannot be, has the factor 0.
 *
 * <p>Names and definitions: ASTM Manual on Presentation of Data and Control Chart Analysis (MNL 7),
 * part 3; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.
 */
public enum LimitFactor {
  /** Means from ranges: mean ± A2 R̄, A2 = 3 / (d2 √n). */
  A2 {
    @Override
    double compute(int n) {
      return 3 / (d2(n) * Math.sqrt(n));
    }
  },
  /** Means from standard deviations: mean ± A3 s̄, A3 = 3 / (c4 √n). */
  A3 {
    @Override
    double compute(int n) {
      return 3 / (c4(n) * Math.sqrt(n));
    }
  },
  /** Lower limit of standard deviations, times s̄: B3 = 1 - 3 √(1 - c4²) / c4. */
  B3 {
    @Override
    double compute(int n) {
      return 1 - 3 * deviationOfS(n) / c4(n);
    }
  },
  /** Upper limit of standard deviations, times s̄: B4 = 1 + 3 √(1 - c4²) / c4. */
  B4 {
    @Override
    double compute(int n) {
      return 1 + 3 * deviationOfS(n) / c4(n);
    }
  },
  /** Lower limit of standard deviations, times a known sigma: B5 = c4 - 3 √(1 - c4²). */
  B5 {
    @Override
    double compute(int n) {
      return c4(n) - 3 * deviationOfS(n);
    }
  },
  /** Upper limit of standard deviations, times a known sigma: B6 = c4 + 3 √(1 - c4²). */
  B6 {
    @Override
    double compute(int n) {
      return c4(n) + 3 * deviationOfS(n);
    }
  },
  /** Lower limit of ranges, times a known sigma: D1 = d2 - 3 d3. */
  D1 {
    @Override
    double compute(int n) {
      return d2(n) - 3 * d3(n);
    }
  },
  /** Upper limit of ranges, times a known sigma: D2 = d2 + 3 d3. */
  D2 {
    @Override
    double compute(int n) {
      return d2(n) + 3 * d3(n);
    }
  },
  /** Lower limit of ranges, times R̄: D3 = 1 - 3 d3 / d2. */
  D3 {
    @Override
    double compute(int n) {
      return 1 - 3 * d3(n) / d2(n);
    }
  },
  /** Upper limit of ranges, times R̄: D4 = 1 + 3 d3 / d2. */
  D4 {
    @Override
    double compute(int n) {
      return 1 + 3 * d3(n) / d2(n);
    }
  },
  /** Single results from ranges: mean ± E2 R̄, E2 = 3 / d2. */
  E2 {
    @Override
    double compute(int n) {
      return 3 / d2(n);
    }
  };

  /**
   * The factor for subgroups of n results; for single results with moving ranges n is 2.
   *
   * @param n how many results, at least 2; at most 25 for the factors of ranges (A2, D1 to D4, E2)
   * @return at least 0
   * @throws IllegalArgumentException for any other n
   */
  public double of(int n) {
    return Math.max(0, compute(n));
  }

  abstract double compute(int n);

  /** Standard deviation of the standard deviation of n results, for sigma 1. */
  private static double deviationOfS(int n) {
    return Math.sqrt(1 - c4(n) * c4(n));
  }
}
