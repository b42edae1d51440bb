package org.sapotrace.chemistry;

/**
 * What a titrant is a solution in, and what temperature does to its volume.
 *
 * <p>A titrant is delivered at the temperature of the bench, and counts at 20 °C. The difference is
 * taken as anything up to 4 °C to either side, so that the relative standard uncertainty of a
 * volume is 4 b / sqrt(3), b being the expansion per °C: EURACHEM/CITAC QUAM:2012, examples A1 and
 * A3.
 */
public enum Solvent {
  /** b = 0.000 21 per °C, of water: QUAM:2012, examples A1 to A3. */
  WATER("aqueous", 2.1e-4),
  /** b = 0.0011 per °C, of ethanol and isopropanol: EN 14104 (from memory). */
  ALCOHOL("alcoholic", 1.1e-3);

  private static final double WITHIN_C = 4;

  private final String words;
  private final double expansionPerC;

  Solvent(String words, double expansionPerC) {
    this.words = words;
    this.expansionPerC = expansionPerC;
  }

  /** What a titrant in it is called: {@code aqueous} or {@code alcoholic}. */
  public String words() {
    return words;
  }

  /** The relative standard uncertainty of a volume for want of its temperature. */
  double relativeUncertainty() {
    return WITHIN_C * expansionPerC / Math.sqrt(3);
  }
}
