package org.sapotrace.controlchart;

import org.sapotrace.measure.Rounding;

/**
 * A tabular cumulative sum of results, upwards and downwards.
 *
 * <p>With z_i = (x_i - centre)/σ, σ that of the result (of a mean of n values, σ/√n), C+_i = max(0,
 * C+_(i-1) + z_i - k) and C-_i = max(0, C-_(i-1) - z_i - k), both from the head start on. It
 * signals where a sum is above h. It finds a lasting shift of 2k σ soonest.
 *
 * <p>Source: E. S. Page, Continuous inspection schemes, Biometrika 41 (1954) 100,
 * doi:10.1093/biomet/41.1-2.100; head start: J. M. Lucas and R. B. Crosier, Fast initial response
 * for CUSUM quality-control schemes, Technometrics 24 (1982) 199,
 * doi:10.1080/00401706.1982.10487759; NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3.
 *
 * @param reference k, in standard deviations, at least 0
 * @param decision h, in standard deviations, above 0
 * @param headStart the value of both sums at the start, in standard deviations, from 0 to the
 *     decision value
 */
public record Cusum(double reference, double decision, double headStart) {

  /**
   * k = 0.5 and h = 5 without a head start: what is usual for a shift of one standard deviation.
   */
  public static final Cusum USUAL = new Cusum(0.5, 5, 0);

  /**
   * Checks the settings.
   *
   * @throws IllegalArgumentException for settings out of range
   */
  public Cusum {
    if (!(reference >= 0 && Double.isFinite(reference))) {
      throw new IllegalArgumentException(
          "The reference value of a CUSUM must be at least 0 standard deviations, not %s; take half the shift to be found, such as 0.5."
              .formatted(Rounding.of(reference)));
    }
    if (!(decision > 0 && Double.isFinite(decision))) {
      throw new IllegalArgumentException(
          "The decision value of a CUSUM must be above 0 standard deviations, not %s; 5 goes with a reference value of 0.5."
              .formatted(Rounding.of(decision)));
    }
    if (!(headStart >= 0 && headStart <= decision)) {
      throw new IllegalArgumentException(
          "The head start of a CUSUM must be from 0 to its decision value of %s, not %s; half the decision value is usual."
              .formatted(Rounding.of(decision), Rounding.of(headStart)));
    }
  }

  /** The settings in words, such as {@code reference 0.5, decision 5}. */
  public String settings() {
    String start = headStart == 0 ? "" : ", head start " + Rounding.of(headStart);
    return "reference %s, decision %s%s"
        .formatted(Rounding.of(reference), Rounding.of(decision), start);
  }
}
