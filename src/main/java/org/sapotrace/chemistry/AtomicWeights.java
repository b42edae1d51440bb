package org.sapotrace.chemistry;

/**
 * The atomic weights that every molar mass here is computed from, in g/mol.
 *
 * <p>IUPAC conventional and abridged standard atomic weights, as of the tables of 2021. They are
 * pinned so that a result recomputed years later is the same. Their own uncertainty (a few parts in
 * 100 000) is left out of every budget.
 */
final class AtomicWeights {

  static final double HYDROGEN = 1.008;
  static final double CARBON = 12.011;
  static final double OXYGEN = 15.999;
  static final double SODIUM = 22.990;
  static final double POTASSIUM = 39.098;

  private AtomicWeights() {}
}
